#pragma once
// Work in a thread of its own whose result comes back to the receiver's thread: a value is computed
// and posted, nothing else is shared. Whatever is thrown there (memory running out) is caught here,
// as run_haylane does for the command line.

#include "core/base/result.h"

#include <exception>
#include <filesystem>
#include <functional>
#include <stop_token>
#include <string>
#include <thread>
#include <utility>

#include <QObject>

namespace haylane {

// `doing` ("Reading") and `book` are for the message when something is thrown. The receiver must
// outlive the thread.
template <class T>
[[nodiscard]] std::jthread in_background(QObject* receiver, std::string doing,
                                         std::filesystem::path book,
                                         std::function<Result<T>(const std::stop_token&)> work,
                                         std::function<void(const Result<T>&)> finish) {
    return std::jthread([=](const std::stop_token& stop) {
        const auto safely = [&]() -> Result<T> {
            try {
                return work(stop);
            } catch (const std::exception& thrown) {
                return fail({"unexpected", doing + " stopped: " + thrown.what(), book.string(),
                             "Close other programs and try again."});
            }
        };
        QMetaObject::invokeMethod(
            receiver, [finish, result = safely()] { finish(result); }, Qt::QueuedConnection);
    });
}

}  // namespace haylane

#pragma once
// A button that asks where a report should go and writes it in the background, with progress and a
// stop; then says that it is saved.

#include "app/desktop/jobs/work.h"

#include <filesystem>
#include <functional>

#include <QWidget>

class QLabel;
class QPushButton;

namespace haylane {

class ReportRow : public QWidget {
    Q_OBJECT

  public:
    using Write = std::function<Result<void>(const std::filesystem::path& file, const Progress&)>;

    // The name that is offered, "ground-report.pdf", and what the report is.
    ReportRow(QString file_name, const QString& tip, QWidget* parent = nullptr);

    // What to write, offered beside the book; an empty `write` turns the button off.
    void set_report(const std::filesystem::path& book, Write write);
    void write_to(const std::filesystem::path& file);
    [[nodiscard]] bool busy() const { return work_->busy(); }

  signals:
    void failed(const haylane::Error& error);

  private:
    void ask();

    QString file_name_;
    std::filesystem::path book_;
    Write write_;
    Work* work_;
    QPushButton* button_;
    QLabel* saved_;
};

}  // namespace haylane

#pragma once
// What must hold of every paper: all text on its page, none across other text.

#include "app/papers/sheet.h"

#include <gtest/gtest.h>

namespace haylane::testing {

inline void expect_all_on_page(const SheetRecord& record) {
    const QRectF page(QPointF(0.0, 0.0), record.page_pt);
    ASSERT_FALSE(record.texts.empty());
    for (std::size_t i = 0; i < record.texts.size(); ++i) {
        const PlacedText& one = record.texts[i];
        EXPECT_TRUE(page.contains(one.box)) << one.page << " " << one.text.toStdString();
        for (std::size_t k = 0; k < i; ++k) {
            if (record.texts[k].page != one.page) continue;
            const QRectF shared = one.box.intersected(record.texts[k].box);
            EXPECT_FALSE(shared.width() > 0.01 && shared.height() > 0.01)
                << one.page << ": " << one.text.toStdString() << " | "
                << record.texts[k].text.toStdString();
        }
    }
}

// All lines in the order they were set, parted by single blanks.
inline QString all_text(const SheetRecord& record) {
    QString all;
    for (const PlacedText& line : record.texts) all += line.text + QStringLiteral(" ");
    return all.simplified();
}

}  // namespace haylane::testing

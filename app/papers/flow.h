#pragma once
// Running text over pages: paragraphs, headings and tables follow each other and start a new page
// when the current one is full. Every page gets the same foot line. Points, as in sheet.h.

#include "app/papers/sheet.h"

#include <vector>

namespace haylane {

class Flow {
  public:
    enum class Start { new_page, this_page };
    // `foot` stands at every page's foot, `pages` in all.
    Flow(Sheet& sheet, QString foot, int pages, Start start = Start::new_page);

    void start_page();
    // Room for that height on one page: starts a new page if it is not left.
    void need(double height);
    void heading(const QString& text);
    void paragraph(const Rich& text);
    void rule();
    void gap(double height) { y_ += height; }
    // Column widths are shares of the width; the first row is the head, repeated on every page.
    void table(const std::vector<double>& shares, const std::vector<std::vector<QString>>& rows);

    [[nodiscard]] Sheet& sheet() { return sheet_; }
    [[nodiscard]] double y() const { return y_; }
    [[nodiscard]] double left() const { return sheet_.area().left(); }
    [[nodiscard]] double width() const { return sheet_.area().width(); }
    // Height of a whole empty page.
    [[nodiscard]] double page_height() const;

  private:
    void begin_page();
    void table_row(const std::vector<double>& shares, const std::vector<QString>& cells, bool bold);
    [[nodiscard]] double row_height(const std::vector<double>& shares,
                                    const std::vector<QString>& cells, bool bold) const;

    Sheet& sheet_;
    QString foot_;
    int pages_;
    double y_ = 0.0;
};

inline constexpr int kBackText = 10;  // height of text after the front page

}  // namespace haylane

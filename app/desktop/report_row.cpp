#include "app/desktop/report_row.h"

#include "app/desktop/file_names.h"
#include "app/desktop/jobs/work_bar.h"

#include <utility>

#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

namespace haylane {

ReportRow::ReportRow(QString file_name, const QString& tip, QWidget* parent)
    : QWidget(parent),
      file_name_(std::move(file_name)),
      work_(new Work(this)),
      button_(new QPushButton(tr("Re&port…"))),
      saved_(new QLabel) {
    button_->setToolTip(tip);
    button_->setEnabled(false);
    auto* bar = new WorkBar(work_);
    bar->set_doing(tr("Report"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(button_);
    row->addWidget(saved_);
    row->addWidget(bar, 1);
    row->addStretch(0);
    connect(button_, &QPushButton::clicked, this, &ReportRow::ask);
    connect(work_, &Work::busy_changed, this, [this](bool busy) {
        saved_->clear();
        button_->setEnabled(!busy && write_);
    });
    connect(work_, &Work::failed, this, [this](const Error& error) {
        if (error.code != "cancelled") emit failed(error);
    });
}

void ReportRow::set_report(const std::filesystem::path& book, Write write) {
    book_ = book;
    write_ = std::move(write);
    button_->setEnabled(write_ && !busy());
}

void ReportRow::ask() {
    const QString beside = QFileInfo(to_text(book_)).absolutePath();
    const QString chosen = QFileDialog::getSaveFileName(
        this, tr("Save the report"), QDir(beside).filePath(file_name_), "PDF (*.pdf)");
    if (!chosen.isEmpty()) write_to(to_path(chosen));
}

void ReportRow::write_to(const std::filesystem::path& file) {
    if (!write_) return;
    work_->start<std::filesystem::path>(
        "The report", file,
        [write = write_, file](const Progress& progress) -> Result<std::filesystem::path> {
            if (const auto written = write(file, progress); !written) return fail(written.error());
            return file;
        },
        [this](const std::shared_ptr<const std::filesystem::path>& written) {
            saved_->setText(tr("%1 is saved.").arg(file_name(*written)));
        });
}

}  // namespace haylane

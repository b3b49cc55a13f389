#include "app/desktop/trials/trials_page.h"

#include "app/papers/trial_report.h"
#include "app/papers/trial_words.h"
#include "core/plan/spoken.h"
#include "core/trials/compare_trials.h"
#include "core/trials/trial_table.h"

#include <algorithm>

#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QSplitter>
#include <QTableView>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace haylane {
namespace {

QString to_q(const std::string& text) { return QString::fromStdString(text).toHtmlEscaped(); }

// "0.17 (0.13–0.22)".
QString mean_text(const MeanInterval& of, const SpokenMeasure& how) {
    if (of.n == 0) return QStringLiteral("–");
    const QString mean = to_q(how.figure(of.mean));
    if (!of.half_width) return mean;
    return QStringLiteral("%1 (%2–%3)")
        .arg(mean, to_q(how.figure(of.mean - *of.half_width)),
             to_q(how.figure(of.mean + *of.half_width)));
}

// A column a rig, a row a measure that was measured.
QString rig_table(const TrialComparison& trials, bool metric) {
    QString html = "<table cellpadding='4'><tr><th></th>";
    for (const RigTrials& rig : trials.rigs)
        html += "<th align='right'>" + to_q(rig.rig) + "<br>" +
                (rig.runs == 1 ? TrialsPage::tr("1 feeding")
                               : TrialsPage::tr("%1 feedings").arg(rig.runs)) +
                "</th>";
    html += "</tr>";
    for (const TrialMeasure measure : kTrialMeasures) {
        const bool any = std::any_of(trials.rigs.begin(), trials.rigs.end(),
                                     [&](const RigTrials& rig) { return rig[measure].n > 0; });
        if (!any) continue;
        const SpokenMeasure how = spoken(measure, metric);
        html += "<tr><td>" + to_q(how.name) + "</td>";
        for (const RigTrials& rig : trials.rigs)
            html += "<td align='right'>" + mean_text(rig[measure], how) + "</td>";
        html += "</tr>";
    }
    return html + "</table>";
}

QString pair_text(const RigPair& pair, bool metric) {
    QString html =
        "<p><b>" +
        TrialsPage::tr("%1 against %2, pairs: %3").arg(to_q(pair.b), to_q(pair.a)).arg(pair.pairs) +
        "</b></p><ul>";
    for (const PairedTrial& one : pair.measures) {
        const SpokenMeasure how = spoken(one.measure, metric);
        html += "<li>" + to_q(how.name) + ": " + to_q(verdict_words(one, pair, how)) + "</li>";
    }
    return html + "</ul>";
}

QString told_html(const TrialComparison& trials, bool metric) {
    if (trials.rigs.empty())
        return TrialsPage::tr(
            "<p>No feeding is written down yet.</p><p>Feed the same hay with both rigs on the same "
            "day, give the two feedings one mark, and weigh or measure the fuel. After three "
            "feedings of a rig, plans and haul costs go by its own figures.</p>");
    QString html;
    for (const std::string& answer : trial_answers(trials, metric))
        html += "<p>" + to_q(answer) + "</p>";
    html += rig_table(trials, metric);
    for (const RigPair& pair : trials.pairs) html += pair_text(pair, metric);
    if (!trials.unpaired.empty())
        html += "<p>" +
                TrialsPage::tr("Feedings without a partner: %1.").arg(trials.unpaired.size()) +
                "</p>";
    return html + "<p>" + TrialsPage::tr("In brackets: where the true mean lies 95 times in 100.") +
           "</p>";
}

}  // namespace

TrialsPage::TrialsPage(BookDesk& desk, QWidget* parent)
    : QWidget(parent),
      desk_(desk),
      form_(new TrialForm),
      told_(new QTextBrowser),
      table_(new QTableView),
      model_(new RowTableModel(this)),
      report_(new ReportRow("trial-report.pdf", tr("What the trials tell, as a paper"))) {
    auto* scroll = new QScrollArea;
    scroll->setWidget(form_);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    auto* left = new QWidget;
    auto* left_column = new QVBoxLayout(left);
    left_column->addWidget(new QLabel(tr("<b>A feeding, as it happens</b>")));
    left_column->addWidget(scroll, 1);
    auto* caution =
        new QLabel(tr("Stop the rotor and the shaft before you dismount to weigh or "
                      "sample."));
    caution->setWordWrap(true);
    auto* keep = new QPushButton(tr("&Keep this feeding"));
    left_column->addWidget(keep);
    left_column->addWidget(caution);
    told_->setAccessibleName(tr("What the trials tell"));
    table_->setModel(model_);
    table_->setAccessibleName(tr("Feedings kept"));
    table_->verticalHeader()->setDefaultSectionSize(24);
    auto* out = new QPushButton(tr("Take the feedings picked &out"));
    auto* right = new QWidget;
    auto* column = new QVBoxLayout(right);
    column->addWidget(told_, 3);
    column->addWidget(new QLabel(tr("<b>Feedings kept</b>")));
    column->addWidget(table_, 2);
    column->addWidget(out, 0, Qt::AlignLeft);
    column->addWidget(report_);
    auto* both = new QSplitter;
    both->addWidget(left);
    both->addWidget(right);
    both->setSizes({430, 850});
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->addWidget(both);
    connect(out, &QPushButton::clicked, this, &TrialsPage::take_out);
    connect(keep, &QPushButton::clicked, this, &TrialsPage::keep);
    connect(model_, &RowTableModel::failed, this, &TrialsPage::failed);
    connect(model_, &RowTableModel::modelReset, table_, &QTableView::resizeColumnsToContents);
    connect(model_, &RowTableModel::edit_wanted, this,
            [this](const QString& what, const std::vector<RowEdit>& edits) {
                desk_.edit(what, edits);
            });
    connect(report_, &ReportRow::failed, this, &TrialsPage::failed);
}

QString TrialsPage::told() const { return told_->toPlainText(); }

void TrialsPage::set_ranch(std::shared_ptr<const ShownRanch> ranch) {
    ranch_ = std::move(ranch);
    form_->set_ranch(ranch_ ? &ranch_->open.checked.ranch : nullptr);
    const std::vector<RawRow>& rows = rows_of(ranch_.get(), "trials");
    const bool metric = ranch_ && speaks_metric(ranch_->open.checked.ranch.settings);
    const std::vector<TrialRun> runs = trial_table(rows).runs;
    const TrialComparison trials = compare_trials(runs);
    told_->setHtml(told_html(trials, metric));
    model_->set_rows("trials", rows, metric);
    if (!ranch_ || runs.empty()) {
        report_->set_report({}, {});
        return;
    }
    report_->set_report(
        ranch_->open.book, [trials, runs, metric, name = ranch_->open.checked.ranch.name](
                               const std::filesystem::path& file, const Progress&) {
            return write_trial_report(file, {trials, runs, {.metric = metric}, name});
        });
}

void TrialsPage::keep() {
    const auto feeding = form_->edit();
    if (!feeding) {
        emit failed(feeding.error());
        return;
    }
    desk_.edit(tr("keep a trial feeding"), {*feeding}, [this] { form_->begin_next(); });
}

void TrialsPage::take_out() {
    const std::vector<RowEdit> edits = take_out_picked(*table_, *model_);
    if (!edits.empty()) desk_.edit(tr("take trial feedings out"), edits);
}

}  // namespace haylane

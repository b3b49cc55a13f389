#include "app/desktop/tracks/tracks_page.h"

#include "app/desktop/file_names.h"
#include "app/desktop/jobs/work_bar.h"
#include "app/desktop/models/problem_model.h"
#include "app/session/correct_cut.h"
#include "app/session/log_words.h"
#include "core/plan/spoken.h"

#include <algorithm>

#include <QComboBox>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QMimeData>
#include <QPushButton>
#include <QSplitter>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace haylane {
namespace {

const std::vector<std::string> kLogTables{"tracks", "feedings", "feeding_bales", "feeding_lines",
                                          "hay"};

QString legend() {
    QStringList parts;
    for (const Motion motion : kMotions) {
        const QString color = motion_pen(motion).color().name();
        const QString mark = motion == Motion::laying      ? QStringLiteral("━━")
                             : motion == Motion::returning ? QStringLiteral("╌╌")
                             : motion == Motion::hauling   ? QStringLiteral("──")
                             : motion == Motion::loading   ? QStringLiteral("■")
                                                           : QStringLiteral("●");
        parts << "<span style='color:" + color + "'>" + mark + "</span> " + motion_word(motion);
    }
    return parts.join("&nbsp;&nbsp; ");
}

QString told_html(const LogProposal& proposal, bool metric) {
    QString html;
    for (const std::string& file : proposal.already)
        html += "<p>" +
                TracksPage::tr("%1 is in the book already; nothing is added.")
                    .arg(QString::fromStdString(file).toHtmlEscaped()) +
                "</p>";
    for (const ProposedFeeding& feeding : proposal.feedings) {
        QStringList lines = QString::fromStdString(feeding_text(feeding, metric))
                                .toHtmlEscaped()
                                .trimmed()
                                .split('\n');
        lines[0] = "<b>" + lines[0] + "</b>";
        html += "<p>" + lines.join("<br>") + "</p>";
    }
    if (proposal.feedings.empty() && proposal.already.empty())
        html += "<p>" + TracksPage::tr("No hay was laid in these tracks.") + "</p>";
    for (const Problem& problem : proposal.problems)
        html += "<p>" + QString::fromStdString(problem.where).toHtmlEscaped() + ": " +
                as_sentence(problem.text).toHtmlEscaped() + " " +
                as_sentence(problem.remedy).toHtmlEscaped() + "</p>";
    return html;
}

}  // namespace

TracksPage::TracksPage(BookDesk& desk, QWidget* parent)
    : QWidget(parent),
      desk_(desk),
      work_(new Work(this)),
      map_(new MapViewWidget),
      layer_(new TrackLayer(this)),
      strip_(new CutStrip),
      bar_(new WorkBar(work_)),
      tracks_(new QComboBox),
      was_(new QComboBox),
      correct_(new QPushButton(tr("&Put right"))),
      piece_(new QLabel),
      told_(new QTextBrowser),
      open_(new QPushButton(tr("&Read tracks…"))),
      accept_(new QPushButton(tr("&Accept these feedings"))) {
    auto* both = new QSplitter;
    both->addWidget(make_left());
    both->addWidget(make_right());
    both->setSizes({850, 430});
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->addWidget(both);
    map_->set_tool(layer_);
    setAcceptDrops(true);
    connect(layer_, &TrackLayer::piece_picked, this, &TracksPage::pick);
    connect(strip_, &CutStrip::piece_picked, this, [this](std::size_t piece) {
        pick(static_cast<std::size_t>(tracks_->currentIndex()), piece);
    });
    connect(tracks_, &QComboBox::currentIndexChanged, this, &TracksPage::show_track);
    connect(open_, &QPushButton::clicked, this, &TracksPage::ask_for_files);
    connect(accept_, &QPushButton::clicked, this, &TracksPage::accept);
    connect(correct_, &QPushButton::clicked, this,
            [this] { correct(static_cast<Motion>(was_->currentData().toInt())); });
    connect(bar_, &WorkBar::stop_wanted, work_, &Work::stop);
    connect(work_, &Work::failed, this, [this](const Error& error) {
        if (error.code != "cancelled") emit failed(error);
        show_piece();
    });
    show_proposal(nullptr);
}

QWidget* TracksPage::make_left() {
    auto* words = new QLabel(legend());
    words->setTextFormat(Qt::RichText);
    words->setAccessibleName(tr("How motions are drawn"));
    tracks_->setAccessibleName(tr("Track shown on the strip"));
    auto* left = new QWidget;
    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(0, 0, 0, 6);
    column->addWidget(map_, 1);
    column->addWidget(words);
    column->addWidget(tracks_);
    column->addWidget(strip_);
    return left;
}

QWidget* TracksPage::make_right() {
    for (const Motion motion : kMotions)
        was_->addItem(tr("It was %1").arg(motion_word(motion)), static_cast<int>(motion));
    was_->setAccessibleName(tr("What the piece picked was"));
    piece_->setWordWrap(true);
    piece_->setAccessibleName(tr("The piece picked"));
    told_->setAccessibleName(tr("Feedings found"));
    auto* fix = new QHBoxLayout;
    fix->addWidget(was_, 1);
    fix->addWidget(correct_);
    auto* right = new QWidget;
    auto* column = new QVBoxLayout(right);
    column->addWidget(open_);
    column->addWidget(bar_);
    column->addWidget(piece_);
    column->addLayout(fix);
    column->addWidget(told_, 1);
    column->addWidget(accept_);
    right->setMinimumWidth(340);
    return right;
}

void TracksPage::set_ranch(std::shared_ptr<const ShownRanch> ranch) {
    work_->stop();
    ranch_ = std::move(ranch);
    local_.reset();
    if (ranch_) local_.emplace(local_day(ranch_->open));
    map_->set_ranch(ranch_);
    show_proposal(nullptr);
}

void TracksPage::update_ranch(std::shared_ptr<const ShownRanch> ranch) {
    ranch_ = std::move(ranch);
    map_->update_ranch(ranch_);
}

void TracksPage::read(std::vector<std::filesystem::path> files) {
    if (!ranch_ || work_->busy()) return;
    bar_->set_doing(tr("Reading tracks"));
    work_->start<LogProposal>(
        "Reading tracks", ranch_->open.book,
        [ranch = ranch_, files = std::move(files)](const Progress& progress) {
            return propose_log(ranch->open, {.files = files}, progress);
        },
        [this](std::shared_ptr<const LogProposal> proposal) {
            show_proposal(std::move(proposal));
        });
    show_piece();
}

void TracksPage::show_proposal(std::shared_ptr<const LogProposal> proposal) {
    const int track = std::max(0, tracks_->currentIndex());
    strip_->set_track(nullptr, nullptr);
    proposal_ = std::move(proposal);
    layer_->set_proposal(proposal_);
    const QSignalBlocker quiet(tracks_);
    tracks_->clear();
    if (proposal_) {
        for (const LoggedTrack& one : proposal_->tracks)
            tracks_->addItem(QString::fromStdString(one.file + ", " + format_day(one.date) + ", " +
                                                    one.from + " to " + one.to));
        tracks_->setCurrentIndex(std::min(track, tracks_->count() - 1));
        told_->setHtml(told_html(*proposal_, speaks_metric(ranch_->open.checked.ranch.settings)));
    } else {
        told_->setHtml(tr(
            "<p>Drop the files of a phone or a receiver here: GPX, KML, GeoJSON or CSV. What was "
            "fed where is proposed; nothing is recorded before you accept it.</p>"));
    }
    show_track();
}

const LoggedTrack* TracksPage::track_shown() const {
    const int at = tracks_->currentIndex();
    if (!proposal_ || at < 0 || at >= static_cast<int>(proposal_->tracks.size())) return nullptr;
    return &proposal_->tracks[static_cast<std::size_t>(at)];
}

void TracksPage::show_track() {
    strip_->set_track(track_shown(), local_ ? &*local_ : nullptr);
    layer_->pick(std::nullopt);
    tracks_->setVisible(tracks_->count() > 1);
    map_->update();
    show_piece();
}

void TracksPage::show_piece() {
    const LoggedTrack* track = track_shown();
    const auto picked = strip_->picked();
    const bool any = track != nullptr && picked && *picked < track->cut.pieces.size();
    was_->setEnabled(any && !busy());
    correct_->setEnabled(any && !busy());
    open_->setEnabled(ranch_ != nullptr && !busy());
    const bool ready =
        proposal_ && std::any_of(proposal_->feedings.begin(), proposal_->feedings.end(),
                                 [](const ProposedFeeding& one) { return one.not_ready.empty(); });
    accept_->setEnabled(ready && !busy());
    if (!any) {
        piece_->setText(
            track == nullptr
                ? QString()
                : tr("Click a piece on the map or on the strip to see what it was taken "
                     "for."));
        return;
    }
    const Piece& one = track->cut.pieces[*picked];
    const bool metric = speaks_metric(ranch_->open.checked.ranch.settings);
    QString text = tr("%1 to %2: %3, %4 % sure")
                       .arg(QString::fromStdString(local_->clock(one.start_s)),
                            QString::fromStdString(local_->clock(one.end_s)),
                            "<b>" + motion_word(one.motion) + "</b>")
                       .arg(qRound(100.0 * one.confidence));
    if (one.length_m > 0.0)
        text += ", " + QString::fromStdString(driven_length(one.length_m, metric));
    piece_->setText(text);
    was_->setCurrentIndex(was_->findData(static_cast<int>(one.motion)));
}

void TracksPage::pick(std::size_t track, std::size_t piece) {
    if (static_cast<int>(track) != tracks_->currentIndex())
        tracks_->setCurrentIndex(static_cast<int>(track));
    strip_->pick(piece);
    layer_->pick(TrackLayer::Picked{track, piece});
    map_->update();
    show_piece();
}

void TracksPage::correct(Motion motion) {
    const LoggedTrack* track = track_shown();
    const auto picked = strip_->picked();
    if (track == nullptr || !picked || work_->busy()) return;
    const Piece& one = track->cut.pieces.at(*picked);
    bar_->set_doing(tr("Cutting the track anew"));
    work_->start<LogProposal>(
        "Cutting a track", ranch_->open.book,
        [ranch = ranch_, proposal = proposal_,
         at = static_cast<std::size_t>(tracks_->currentIndex()), from = one.start_s, to = one.end_s,
         motion](const Progress&) {
            return correct_cut(ranch->open, *proposal, at, from, to, motion);
        },
        [this](std::shared_ptr<const LogProposal> proposal) {
            show_proposal(std::move(proposal));
        });
    show_piece();
}

void TracksPage::accept() {
    if (!proposal_ || !ranch_) return;
    desk_.carry_out(
        {.what = tr("accept tracks"),
         .tables = kLogTables,
         .work = [proposal = proposal_](const OpenRanch& open) -> Result<std::vector<std::string>> {
             auto accepted = accept_log(open, *proposal);
             if (!accepted) return fail(accepted.error());
             return std::move(accepted->sentences);
         },
         .then = [this] { show_proposal(nullptr); }});
}

void TracksPage::ask_for_files() {
    const QStringList chosen = QFileDialog::getOpenFileNames(
        this, tr("Read tracks"), {}, tr("Tracks (*.gpx *.kml *.geojson *.json *.csv)"));
    std::vector<std::filesystem::path> files;
    for (const QString& one : chosen) files.push_back(to_path(one));
    if (!files.empty()) read(std::move(files));
}

void TracksPage::dragEnterEvent(QDragEnterEvent* event) {
    if (ranch_ && event->mimeData()->hasUrls()) event->acceptProposedAction();
}

void TracksPage::dropEvent(QDropEvent* event) {
    std::vector<std::filesystem::path> files;
    for (const QUrl& url : event->mimeData()->urls())
        if (url.isLocalFile()) files.push_back(to_path(url.toLocalFile()));
    if (files.empty()) return;
    event->acceptProposedAction();
    read(std::move(files));
}

}  // namespace haylane

#include "app/desktop/models/problem_model.h"

#include <algorithm>

namespace haylane {
namespace {

QString word_for(Severity severity) {
    switch (severity) {
        case Severity::info:
            return ProblemModel::tr("Note");
        case Severity::warning:
            return ProblemModel::tr("Look at this");
        case Severity::error:
            return ProblemModel::tr("Not used");
    }
    return {};
}

QString cell(const Problem& problem, int column) {
    switch (column) {
        case ProblemModel::what:
            return as_sentence(problem.text);
        case ProblemModel::where:
            return QString::fromStdString(problem.where);
        case ProblemModel::what_to_do:
            return as_sentence(problem.remedy);
        default:
            return {};
    }
}

// All of a problem as one text: what a screen reader says and the tool tip shows.
QString in_full(const Problem& problem) {
    QStringList parts{word_for(problem.severity) + ": " + cell(problem, ProblemModel::what)};
    for (const int column : {ProblemModel::where, ProblemModel::what_to_do}) {
        const QString text = cell(problem, column);
        if (!text.isEmpty()) parts << text;
    }
    return parts.join("\n");
}

}  // namespace

QString as_sentence(const std::string& text) {
    QString sentence = QString::fromStdString(text);
    if (!sentence.isEmpty()) sentence[0] = sentence.at(0).toUpper();
    return sentence;
}

void ProblemModel::set_problems(Problems problems) {
    beginResetModel();
    problems_ = std::move(problems);
    std::stable_sort(problems_.begin(), problems_.end(), [](const Problem& a, const Problem& b) {
        return static_cast<int>(a.severity) > static_cast<int>(b.severity);
    });
    endResetModel();
}

int ProblemModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(problems_.size());
}

int ProblemModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : column_count;
}

QVariant ProblemModel::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
    const Problem& problem = problems_[static_cast<std::size_t>(index.row())];
    switch (role) {
        case Qt::DisplayRole:
            return cell(problem, index.column());
        case Qt::ToolTipRole:
        case Qt::AccessibleTextRole:
            return in_full(problem);
        case severity_role:
            return static_cast<int>(problem.severity);
        default:
            return {};
    }
}

QVariant ProblemModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (role != Qt::DisplayRole || orientation != Qt::Horizontal) return {};
    switch (section) {
        case what:
            return tr("What");
        case where:
            return tr("Where");
        case what_to_do:
            return tr("What to do");
        default:
            return {};
    }
}

}  // namespace haylane

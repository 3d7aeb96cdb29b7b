#include "interpreter/measure/linear.hpp"

#include <optional>

namespace levigate::linear {
namespace {

constexpr std::size_t most_turns = 20000;

/// The rows as equations, each solved for one unknown: the basis. Behind the unknowns of the
/// problem stand those that take up slack, then helpers that the first phase drives to nothing.
class Tableau {
public:
    explicit Tableau(const Problem& problem);

    Status solve(const std::vector<Exact>& cost);
    Answer answer(const std::vector<Exact>& cost) const;

private:
    void add_row(const Row& row, std::size_t& slack, std::size_t& helper);
    void price(const std::vector<Exact>& cost);
    Status descend(std::size_t columns);
    std::optional<std::size_t> entering(std::size_t columns) const;
    std::optional<std::size_t> leaving(std::size_t column) const;
    bool pivot(std::size_t row, std::size_t column);
    void drop_helpers();

    const Exact& bound(std::size_t row) const { return rows_[row].back(); }

    std::size_t unknowns_, helpers_, width_;  ///< `helpers_`: where they begin
    std::vector<std::vector<Exact>> rows_;    ///< factors, then the bound
    std::vector<Exact> prices_;               ///< what a column would cost; last, minus the cost
    std::vector<std::size_t> basis_;          ///< by row
};

/// With a bound that is not negative, as the method wants it.
Row turned(const Row& row) {
    if (row.bound.sign() >= 0) return row;
    Row out = row;
    for (Exact& factor : out.of) factor = -factor;
    out.bound = -out.bound;
    if (row.relation == Relation::at_most) out.relation = Relation::at_least;
    if (row.relation == Relation::at_least) out.relation = Relation::at_most;
    return out;
}

Tableau::Tableau(const Problem& problem)
    : unknowns_(problem.cost.size()), helpers_(unknowns_), width_(0) {
    std::vector<Row> rows;
    std::size_t helped = 0;
    for (const Row& row : problem.rows) {
        rows.push_back(turned(row));
        helpers_ += rows.back().relation != Relation::exactly;
        helped += rows.back().relation != Relation::at_most;
    }
    width_ = helpers_ + helped;
    std::size_t slack = unknowns_, helper = helpers_;
    for (const Row& row : rows) add_row(row, slack, helper);
}

void Tableau::add_row(const Row& row, std::size_t& slack, std::size_t& helper) {
    std::vector<Exact> line(width_ + 1);
    for (std::size_t j = 0; j < row.of.size(); ++j) line[j] = row.of[j];
    line.back() = row.bound;
    if (row.relation != Relation::exactly)
        line[slack++] = row.relation == Relation::at_most ? 1 : -1;
    if (row.relation == Relation::at_most) {
        basis_.push_back(slack - 1);
    } else {
        line[helper] = 1;
        basis_.push_back(helper++);
    }
    rows_.push_back(std::move(line));
}

/// What each column costs beyond what the basis pays for it.
void Tableau::price(const std::vector<Exact>& cost) {
    prices_ = cost;
    prices_.resize(width_ + 1);
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        const Exact paid = prices_[basis_[i]];
        if (paid.is_zero()) continue;
        for (std::size_t j = 0; j <= width_; ++j)
            if (!rows_[i][j].is_zero()) prices_[j] -= paid * rows_[i][j];
    }
}

/// The first column that makes it cheaper.
std::optional<std::size_t> Tableau::entering(std::size_t columns) const {
    for (std::size_t j = 0; j < columns; ++j)
        if (prices_[j].sign() < 0) return j;
    return std::nullopt;
}

/// The row that is used up first; of several the one whose unknown comes first.
std::optional<std::size_t> Tableau::leaving(std::size_t column) const {
    std::optional<std::size_t> best;
    Exact least;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (rows_[i][column].sign() <= 0) continue;
        const Exact ratio = bound(i) / rows_[i][column];
        if (best && (least < ratio || (least == ratio && basis_[*best] < basis_[i]))) continue;
        best = i;
        least = ratio;
    }
    return best;
}

/// False where a number grew beyond the digit cap.
bool Tableau::pivot(std::size_t row, std::size_t column) {
    std::vector<Exact>& line = rows_[row];
    const Exact by = line[column];
    for (Exact& factor : line)
        if (!factor.is_zero()) factor /= by;
    bool known = true;
    const auto clear = [&](std::vector<Exact>& other) {
        const Exact times = other[column];
        if (times.is_zero()) return;
        for (std::size_t j = 0; j <= width_; ++j) {
            if (line[j].is_zero()) continue;
            other[j] -= times * line[j];
            known = known && other[j].known();
        }
    };
    for (std::size_t i = 0; i < rows_.size(); ++i)
        if (i != row) clear(rows_[i]);
    clear(prices_);
    basis_[row] = column;
    return known;
}

Status Tableau::descend(std::size_t columns) {
    for (std::size_t turn = 0; turn < most_turns; ++turn) {
        const auto column = entering(columns);
        if (!column) return Status::best;
        const auto row = leaving(*column);
        if (!row) return Status::unbounded;
        if (!pivot(*row, *column)) return Status::unknown;
    }
    return Status::unknown;
}

/// A helper may stay in the basis at nothing: an unknown of the problem takes its place. Where none
/// can, the row says what others said already.
void Tableau::drop_helpers() {
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (basis_[i] < helpers_) continue;
        for (std::size_t j = 0; j < helpers_; ++j)
            if (!rows_[i][j].is_zero()) {
                pivot(i, j);
                break;
            }
    }
}

Status Tableau::solve(const std::vector<Exact>& cost) {
    if (width_ > helpers_) {
        std::vector<Exact> help(width_);
        for (std::size_t j = helpers_; j < width_; ++j) help[j] = 1;
        price(help);
        const Status first = descend(width_);
        if (first != Status::best) return Status::unknown;
        if (!prices_.back().is_zero()) return Status::impossible;
        drop_helpers();
    }
    price(cost);
    return descend(helpers_);
}

Answer Tableau::answer(const std::vector<Exact>& cost) const {
    Answer out;
    out.at.resize(unknowns_);
    for (std::size_t i = 0; i < rows_.size(); ++i)
        if (basis_[i] < unknowns_) out.at[basis_[i]] = bound(i);
    for (std::size_t j = 0; j < unknowns_; ++j) out.cost += cost[j] * out.at[j];
    out.status = out.cost.known() ? Status::best : Status::unknown;
    return out;
}

}  // namespace

Answer least(const Problem& problem) {
    Tableau tableau(problem);
    const Status status = tableau.solve(problem.cost);
    if (status == Status::best) return tableau.answer(problem.cost);
    return {status, {}, {}};
}

}  // namespace levigate::linear

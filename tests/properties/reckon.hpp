#pragma once
// The same formulas by other means: every formula is a set of linear equations, solved by
// elimination over the multiprecision library's fractions. Written from the design page alone.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "tests/properties/book.hpp"

namespace levigate::testing {

/// A line with its holes filled and its spoons weighed.
struct Plain {
    Id what = none;
    Amount::Kind kind = Amount::Kind::share;
    Number number;
    Ref ref;
    bool spooned = false;  // came from a volume
};
/// `refused` is the code of the finding that the tool owes; empty where all is well. `also` are
/// further reasons to refuse it: what else is wrong, or follows from an edit that was refused.
struct Plains {
    std::vector<Plain> lines;
    std::string refused;
    std::set<std::string> also{};
    std::vector<Step> steps{};  // which follow a swap
};
struct Mixture {
    std::vector<std::pair<Id, Number>> parts;
    std::string refused;
    std::set<std::string> also{};
    std::vector<std::pair<Id, Number>> added{};  // what a finish brings, within the parts
};
using Values = std::map<std::string, Let>;

/// Rows of coefficients with the right side last. Nothing where no single answer exists.
std::optional<std::vector<Number>> eliminate(std::vector<std::vector<Number>> rows);

class Reckoner {
public:
    explicit Reckoner(const Book& book) : book_(book) {}

    /// The lines of a blend or a shade, `like` and all edits applied; `given` fills its holes.
    Plains lines(const Body& body, const Values& given = {});
    Plains edited(Plains plains, const Body& body, const Values& given = {});
    Mixture solve(const Plains& plains);
    Mixture finished(const Mixture& bulk, const Finish& finish);
    Mixture between(const Mixture& first, const Mixture& last, int step, int steps);
    /// A blend, or a shade as written.
    const Mixture& mixture(Id thing);
    /// The thing is to be another one.
    void forget(Id thing) { mixtures_.erase(thing); }

    Number role_in(Id thing, const std::string& role);
    Number content_in(Id thing, Id wanted);
    std::optional<Number> density(Id thing, bool spooned);
    std::optional<Number> density(const Mixture& mixture, bool spooned);

private:
    Plain plain(const Line& line, const Values& values, std::string& refused);
    static std::string mismatched(const std::vector<Plain>& lines);
    Mixture unsound(const std::vector<Plain>& lines);
    bool is_loop(const std::vector<Plain>& lines);
    void apply(const Edit& edit, const Values& values, Plains& plains, std::vector<Id>& stand);
    std::string edit_refused(const Edit& edit, const std::vector<Plain>& lines);
    void respoon(Plain& line, Id other, std::string& refused);
    void scale(std::vector<Plain>& lines, const std::vector<bool>& hit, const Number& factor,
               std::string& refused);
    void rebalance(Plains& plains, const std::vector<Id>& stand);
    std::vector<Number> of_ref(const std::vector<Id>& lines, const Ref& ref);
    std::vector<std::vector<Number>> equations(const std::vector<Plain>& lines);

    const Book& book_;
    std::map<Id, Mixture> mixtures_;
};

/// The lines that an edit is about: one, or with a role those whose own role it is.
/// The same edit twice on one name is refused; a role is a name of its own.
using EditKey = std::tuple<Edit::Kind, Id, std::string>;
EditKey key_of(const Edit& edit);
std::vector<Id> names_of(const Book& book, const Edit& edit, const std::vector<Plain>& lines);

/// The values of a shade's holes: its own lets, else those of what it is like.
Values values_of(const Book& book, const Body& body, const Values& given = {});

}  // namespace levigate::testing

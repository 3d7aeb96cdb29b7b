#pragma once
// A random page of shades as the tests know it: plain values, written out as text for the tool
// (write.hpp) and reckoned here by other means (reckon.hpp). Shares nothing with the tool's code.

#include <boost/multiprecision/cpp_int.hpp>

#include <optional>
#include <string>
#include <vector>

namespace levigate::testing {

using Number = boost::multiprecision::cpp_rational;
using Id = int;  // index in Book::things
inline constexpr Id none = -1;

struct Ref {
    enum class Kind { thing, role, bulk } kind = Kind::thing;
    Id thing = none;
    std::string role;
};

struct Amount {
    enum class Kind { share, parts, grams, rest, as_much, enough } kind = Kind::share;
    Number number = 1;     // of the whole, parts, grams, the factor of as_much, enough's share
    bool spooned = false;  // the number is in mL: in 1 g of the whole, or in place of grams
    std::string text;      // the quantity as it is written; of as_much the words in front
    std::string hole;      // the number is number × what the hole holds + more
    Number more = 0;
    Ref ref;
};

struct Line {
    Id what = none;
    Amount amount;
    std::string name_hole;  // written {tone} in place of a name
};

struct Let {
    std::string hole;
    Number value;     // a share
    Id thing = none;  // or a name
    std::string text;
};

struct Edit {
    enum class Kind { set, add, without, swap, scale, scale_role } kind = Kind::set;
    Line line;          // of without, swap, scale: its name alone
    Id other = none;    // swap: what comes in
    std::string role;   // scale_role
    Number factor = 1;  // scale, scale_role
    std::string text;   // the factor as it is written
};

/// "Work {soft base} in, 3." or "Keep {depth} for 3."
struct Step {
    int serial = 0;
    Id thing = none;   // prints its name and what to weigh of it
    std::string hole;  // or a value
};

/// The inside of a blend, a shade or a variant.
struct Body {
    Id like = none;
    std::vector<Line> lines;
    std::vector<Edit> edits;
    bool rebalance = false;
    std::vector<Let> lets;
    std::vector<Step> steps;  // behind the edits
};

struct Batch {
    enum class Kind { mass, volume, count } kind = Kind::mass;
    std::string name;
    Number size;  // grams, mL, containers
    int container = -1;
    Number overage = 0;   // 5 % is 1/20
    Number holdback = 0;  // grams, or mL
    bool poured = false;  // the holdback is a volume
    std::string text;     // all that stands behind the name
};

/// What is expected of a shade: a share of a name or a role, or the mass of a batch.
struct Expect {
    enum class Measure { thing, role, whole } measure = Measure::thing;
    enum class Compare { at_most, at_least, under, over, is, between } compare = Compare::at_most;
    int serial = 0;  // by which one line is known in all shades that inherit it
    Id thing = none;
    std::string role;
    Number low, high;  // shares, or grams
};

/// A shade's properties; what isn't stated is inherited.
struct Properties {
    std::optional<std::vector<int>> variants, finishes;
    std::vector<Batch> batches;
    std::vector<Expect> expects;
    bool fresh_batches = false, fresh_finishes = false, fresh_variants = false;
    bool fresh_expects = false;
    int balance = -1;
};

/// A family of a shade: `vary`, a table, or `between`.
struct Family {
    struct Member {
        std::string name;
        std::vector<Let> lets;
    };
    enum class Kind { vary, table, between } kind = Kind::vary;
    Id from = none, to = none;
    std::vector<Member> members;  // of between: names alone
    std::vector<std::string> columns;
    std::string pattern;
};

struct Thing {
    enum class Kind { material, blend, shade, family } kind = Kind::material;
    std::string name, alias, role;
    std::optional<Number> density, bulk;
    bool library = false;  // ships with the tool, isn't written
    bool refused = false;  // on purpose or by chance: nothing is built upon it
    Body body;
    Properties properties;
    Family family;
};

struct Variant {
    std::string name;
    Body body;
    bool hidden = false;  // not written
};

struct Finish {
    std::string name;
    std::vector<Line> additions;
    bool library = false;
};

struct Container {
    std::string name, plural;
    Number holds;  // grams, or mL
    bool volume = false;
};

struct Balance {
    std::string name;
    Number step;
    std::string text;
};

struct Book {
    std::vector<Thing> things;  // each speaks of earlier ones only
    std::vector<Variant> variants;
    std::vector<Finish> finishes;
    std::vector<Container> containers;
    std::vector<Balance> balances;
    std::vector<Id> order;  // in which things are written
    bool unit = false;      // the page has a measure of its own: the scoop, 0.15 mL
};

inline bool is_mix(const Thing& thing) {
    return thing.kind == Thing::Kind::blend || thing.kind == Thing::Kind::shade;
}

}  // namespace levigate::testing

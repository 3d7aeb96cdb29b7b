#pragma once
// The tree: one shade file as it was written, line by line, nothing looked up. Plain structs in
// flat tables with 4-byte indices. Everything that came from the text keeps its span.

#include <array>
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "grammar/names.hpp"
#include "grammar/span.hpp"
#include "grammar/words.hpp"

namespace levigate::tree {

// ---- Expressions -------------------------------------------------------------------------------

using ExprId = std::uint32_t;
inline constexpr ExprId no_expr = 0xFFFFFFFFu;

enum class ExprKind : std::uint8_t {
    quantity,  ///< a number with the words behind it: `2 small scoops`, `18 %`, `3`
    unit,      ///< the words alone, one of it: the `mL` in `g/mL`
    hole,      ///< `{depth}`
    add,
    subtract,
    multiply,
    divide,
    per,
    in,  ///< `1 in 1000`
    negate,
};

struct Expr {
    ExprKind kind = ExprKind::quantity;
    Sym hole = no_name;
    ExprId left = no_expr;
    ExprId right = no_expr;
    Span span;    ///< all of it
    Span number;  ///< of a quantity
    Span words;   ///< of a quantity or unit; empty for a bare number
};

// ---- Amounts -----------------------------------------------------------------------------------

/// `soft base` or `the mica`; in a finish also `the bulk`.
struct Ref {
    Name name;
    bool role = false;
    Span span;
};

enum class AmountKind : std::uint8_t { quantity, rest, as_much, enough };

/// What stands before a name, or with the name inside it (`as much kaolin as the base`).
struct Amount {
    AmountKind kind = AmountKind::quantity;
    ExprId expr = no_expr;  ///< the quantity; the factor of `as much`; the share of `enough`
    std::uint8_t times = 1, over = 1;  ///< a factor said in words: `half as much`
    Ref ref;                           ///< of `as much` and `enough`
    Span span;
};

/// `AMOUNT NAME`. Where the amount is a bare number with words behind it, only looking the
/// measures up tells where the measure ends and the name begins: then `open` is set, the last
/// quantity's words hold both, and `name` is empty.
struct Ingredient {
    Amount amount;
    Name name;
    bool open = false;
};

// ---- The lines of a block ----------------------------------------------------------------------

struct Without {
    Name name;
};
struct Swap {
    Name old_name, new_name;
};
struct Scale {
    Ref what;
    ExprId factor = no_expr;
};
struct Rebalance {};
struct Sealed {
    ExprId within = no_expr;  ///< how closely members may tell its amounts
};
enum class Inherited : std::uint8_t {
    steps,
    notes,
    expects,
    batches,
    finishes,
    variants,
    dilutions,
};
struct Fresh {
    Inherited what;
};
struct Dilute {
    Name what;
    ExprId strength = no_expr;
    Name base;
};

/// A quantity or a name: what a hole may hold.
struct Value {
    ExprId expr = no_expr;  ///< where it is a quantity, or a hole that may hold either
    Name name;              ///< where it is a name
    Span span;
};

struct Let {
    Name hole;
    Value value;
};
struct NameList {
    std::vector<Name> names;
};
struct BatchLine {
    Name name;
    ExprId quantity = no_expr, overage = no_expr, holdback = no_expr;
    Span sum = {};  ///< `sum of weights`, in place of a quantity
};
struct Reference {
    Name name;
};  ///< weigh on, from, role, certified, …: one name

enum class MeasureKind : std::uint8_t { name, role, density, whole, cost, cost_per };
enum class Compare : std::uint8_t { at_most, at_least, under, over, is, between };
struct Expect {
    MeasureKind measure = MeasureKind::name;
    Name name;  ///< an ingredient, a role, a container
    Compare compare = Compare::at_most;
    ExprId low = no_expr, high = no_expr;  ///< `low` alone save for `between`
    Span measure_span;
};

/// Text with holes, for `step`, `note` and a family's `name`.
struct TextPiece {
    Span text;              ///< literal text; empty where the piece is a hole
    Name name;              ///< `{soft base}`, `{depth}`, `{step}`
    ExprId expr = no_expr;  ///< `{75 °C}`
    Span span;
};
struct Text {
    std::vector<TextPiece> pieces;
};

struct LabelPart {
    Name name;
    ExprId share = no_expr, most = no_expr;  ///< `most` of a range: `10 % to 30 %`
};
struct LabelLine {
    std::vector<LabelPart> parts;
};
struct Colourant {
    std::vector<Name> indices;
    ExprId strength = no_expr;
};
struct QuantityLine {
    ExprId expr = no_expr;
    ExprId ends = no_expr;  ///< behind `±`: how much more or less it may be
};                          ///< density, bulk, price, holds, reads, up to, least, error, …
struct Swatch {
    std::array<ExprId, 3> lab = {no_expr, no_expr, no_expr};
    ExprId at = no_expr;
    Name in;
};
struct Vary {
    Name hole;
    std::vector<Value> values;
};
struct Between {
    Name first, last;
    ExprId steps = no_expr;
};
struct Columns {
    std::vector<Name> columns;
};  ///< `name` is the word, others are holes
struct Row {
    std::vector<Value> cells;
};
enum class Lips : std::uint8_t { yes, no, at_most, ask, stop, filler };
struct LipsLine {
    Lips lips = Lips::yes;
    ExprId limit = no_expr;
};
struct Colourants {
    bool by_number = false;
};
struct Bound {
    Compare compare = Compare::at_most;  ///< `at most`, or `under` for `below`
    ExprId expr = no_expr;
};  ///< minor
struct Contents {
    ExprId from = no_expr;
    bool metric = false;  ///< in grams alone
};
/// Where it is `open`, the quantity's words hold measure and name, or a measure alone.
struct Have {
    ExprId quantity = no_expr;
    Name name;
    bool open = false;
    Name lot;
    Span best_before;
};
struct Day {
    Span date;
};
/// Where the quantity is `open`, its words hold measure, `of` and shade, and `shade` is empty or,
/// as it stands in quotes behind the `of`, not among them.
struct Make {
    ExprId quantity = no_expr;  ///< or the batch of that name
    Name batch, shade, variant_or_finish, finish;
    bool open = false;
};

/// `6.2 g soft base, lot 24-117, in Windfall mica`. The words hold measure and name, or the measure
/// alone where the name stands in quotes behind them.
struct Pour {
    Span number, words;
    Name name, lot, bowl;
    Span span;
};
struct PourList {
    std::vector<Pour> pours;
};

using Body = std::variant<std::monostate, Ingredient, Without, Swap, Scale, Rebalance, Sealed,
                          Fresh, Dilute, Let, NameList, BatchLine, Reference, Expect, Text,
                          LabelLine, Colourant, QuantityLine, Swatch, Vary, Between, Columns, Row,
                          LipsLine, Colourants, Bound, Contents, Have, Day, Make, PourList>;

struct Line {
    Form form = Form::ingredient;
    bool is_private = false;
    Span span;                                   ///< the line without indentation and comment
    std::uint32_t word_begin = 0, word_end = 0;  ///< the property word, where there is one
    Body body;

    Span word() const { return word_end == 0 ? Span{} : Span{span.source, word_begin, word_end}; }
};

// ---- Blocks ------------------------------------------------------------------------------------

struct Block {
    Heading heading = Heading::none;
    Name name;          ///< for `use` the page or the path, for `rule` the name behind the region
    Name like;          ///< `blend … like`, `shade … like`
    Name region;        ///< of a rule; of a `region` it is also the name
    bool path = false;  ///< `use "…"`
    std::vector<Name> listed;      ///< the regions of `market`
    ExprId value = no_expr;        ///< `unit … = …`, `rate … = …`, `language …`
    Span date;                     ///< of a rate
    std::uint32_t made = no_expr;  ///< of a record, whose name is its day: in `File::makes`
    bool damaged = false;          ///< a line was lost: what is missing here is not reported again
    bool formula_lost = false;     ///< … and it may have been an ingredient, an edit or a `let`
    Span span;                     ///< the heading line
    std::uint32_t first = 0, count = 0;  ///< its lines, in `File::lines`
};

struct Comment {
    Span span;
    bool shared = false;  ///< `## …` at a line's start: for readers, `share` keeps it
};

struct File {
    SourceId source = no_source;
    std::vector<Block> blocks;
    std::vector<Line> lines;
    std::vector<Make> makes;  ///< what the records are of
    std::vector<Expr> exprs;
    std::vector<Comment> comments;
};

}  // namespace levigate::tree

#pragma once
// How deep blocks are within each other. All of it is told by what files say, never by the order
// in which blocks are looked at, and nothing here calls itself.

#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "grammar/names.hpp"
#include "grammar/span.hpp"
#include "grammar/tree.hpp"
#include "grammar/words.hpp"
#include "interpreter/formulary/formulary.hpp"

namespace levigate::resolving {

struct At;
struct Binding;
struct Context;
using Table = std::unordered_map<Sym, At>;

/// The first block beyond a limit; of several the one whose name comes first.
struct TooDeep {
    std::string name;
    Span span;
};

/// So many blocks of a ring are named, and so many are followed if they may be no ring.
inline constexpr std::size_t longest_ring = 50;

struct Nesting {
    /// How many blocks a chain of `like` has down to this one, which is one of them.
    struct Likes {
        std::uint32_t blocks = 0;  ///< 0: the chain is broken, said already
        static constexpr std::uint32_t unfinished = 0xFFFFFFFFu;
    };
    /// A block of the graph of what blocks name, while its rings are looked for (Tarjan).
    struct Node {
        std::uint32_t index = 0;  ///< in the order in which they were reached, from 1
        std::uint32_t low = 0;    ///< the least index that it leads back to
        bool open = false;        ///< its group isn't known yet
    };
    std::unordered_map<std::uint64_t, Likes> likes{};  ///< by At::key
    std::unordered_map<std::uint64_t, Node> nodes{};   ///< by At::key
    std::vector<std::uint32_t> depth{};                ///< by IngredientId, of solved mixes
    /// How many units, each of the next, stand behind a unit, which is one of them; 0: too many.
    std::unordered_map<std::uint64_t, std::uint32_t> units{};  ///< by At::key
    std::optional<TooDeep> like{}, held{}, unit{};
    std::size_t lines = 0, looked = 0;  ///< lines that were applied, and looked at again
    bool lines_said = false;
};

/// True, said, if the file is so far beyond a limit of depth that nothing of it is resolved.
bool is_hopeless(Context& context);
/// The blends and shades that the plain lines of a block name; none if it is like another.
std::vector<At> held_by(Context& context, At at);
const Table& table_of(const Context& context, Heading heading);
/// What a block is like, if that is there and of its kind.
At parent_of(const Context& context, const tree::Block& block);
/// How many blocks the chain of `like` down to this one has; 0 where it is broken, said.
std::uint32_t count_likes(Context& context, At at, const Table& table);
/// Says of blocks that hold each other in a ring, by the one whose name comes first; nothing of
/// them is resolved. False if they are few and only holes and texts make a ring of them.
bool refuse_ring(Context& context, std::vector<At> group);
/// Resolves all that a blend or a shade is made of, the innermost first, and then itself. What is
/// resolved later finds it done, so that nothing goes deeper than a short ring.
void prepare(Context& context, At at);
/// The chain of `like` from its root to the block; empty where it is broken, said already.
std::vector<At> chain_of(Context& context, At at, const Table& table);
/// Keeps, of several blocks beyond a limit, the one whose name comes first.
void note_deep(const Context& context, std::optional<TooDeep>& noted, const Name& name);
/// Notes how deep a solved mix is; false, noted, where that is too deep.
bool settle_depth(Context& context, IngredientId id, const Formula& formula);
/// Says which limits of depth were passed.
void report_depths(Context& context);
/// Finds the sizes of all units that a unit is told in, the last first. False if those are too
/// many, or a ring; noted or said.
bool prepare_unit(Context& context, At at);
/// The blocks that words of a measure may mean, in singular or plural.
std::vector<At> units_called(Context& context, std::string_view folded);
/// The holes that a binding is filled from, in written order.
std::vector<Sym> holes_in(const Context& context, const Binding& binding);
/// False, said, if the members of all families together have too many lines: none is made then.
bool families_fit(Context& context);
/// Counts lines that are applied, or only looked at; false beyond the limit, said.
bool count_lines(Context& context, std::size_t applied, std::size_t looked, Span where);

}  // namespace levigate::resolving

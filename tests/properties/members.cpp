// Two sources, of which each makes an edition. Where the editions are the same, members are told of
// nothing, whatever else is another in the sources; where not, they are told of something.

#include "tests/properties/members.hpp"

#include "interpreter/changes/changes_document.hpp"
#include "interpreter/changes/editions.hpp"
#include "interpreter/render/text.hpp"
#include "tests/properties/random.hpp"
#include "tests/properties/write.hpp"

namespace levigate::testing {
namespace {

/// A page with lines that stay at home and lines that go out.
std::string page_with_secrets(const Book& book, std::uint64_t noise, Random random) {
    std::vector<TextBlock> blocks = write_blocks(book, noise);
    int serial = 0;
    for (TextBlock& block : blocks) {
        const auto insert = [&](const std::string& line) {
            const int place = random.between(0, static_cast<int>(block.lines.size()));
            block.lines.insert(block.lines.begin() + place, {line, false});
        };
        const std::string number = std::to_string(++serial);
        if (random.chance(25)) insert("private note  From SECRET" + number + " in the harbour.");
        if (random.chance(15)) insert("note  Said to all: " + number + ".");
        if (random.chance(15)) insert("# Not for others: SECRET" + number);
        if (random.chance(15)) insert("## For readers " + number + ".");
        if (block.heading.starts_with("material ") && random.chance(30))
            insert("private price  4.13 USD per 31 g");
    }
    return "# SECRET at the head\n" + join(blocks);
}

/// Other words where nobody but the maker reads them, and one block more that nothing uses.
std::string other_secrets(std::string text) {
    for (std::size_t at = text.find("SECRET"); at != text.npos; at = text.find("SECRET", at + 1))
        text.replace(at, 6, "MYSTERY");
    for (std::size_t at = text.find("4.13 USD"); at != text.npos; at = text.find("4.13 USD"))
        text.replace(at, 8, "5.31 USD");
    return text + "\nmaterial MYSTERY\n    private note  Not before spring.\n";
}

EditionState edition_state(State& state, const std::string& text) {
    add_file(state, memory_world({{"a.shade", text}}), "a.shade", "a.shade");
    return editions_of(state);
}

}  // namespace

MembersSeen& members_seen() {
    static MembersSeen seen;
    return seen;
}

// One page with other secrets; or one that another chance makes of the same book.
std::string told_to_members(const Book& book, std::uint64_t seed) {
    const std::string page = page_with_secrets(book, seed, Random(seed));
    const bool same = seed % 2 == 0;
    const std::string other =
        same ? other_secrets(page) : page_with_secrets(book, seed, Random(seed + 1));
    State was, is;
    EditionState before = edition_state(was, page), now = edition_state(is, other);
    MembersSeen& seen = members_seen();
    if (!before.refused.empty() || !now.refused.empty()) return ++seen.refused, "";
    const bool alike = before.texts == now.texts;
    ++(alike ? seen.alike : seen.different);
    const std::string both = before.texts[0] + "----\n" + now.texts[0];
    if (same && !alike) return "secrets made another edition\n" + both;
    const Changes changes = compare_editions(before, now, {});
    std::string told;
    append_text(told, changes_document(changes));
    if (told.find("SECRET") != told.npos || told.find("MYSTERY") != told.npos)
        return "a secret is told\n" + told;
    const bool nothing = told.find("Nothing changed.") != told.npos;
    if (nothing == alike && changes.any() != alike) return "";
    return (alike ? "nothing differs, and it is told\n" : "a difference isn't told\n") + told +
           both;
}

}  // namespace levigate::testing

#pragma once
// An amount and a name as they are written elsewhere: in mails, on web pages, in tables. Private to
// the room.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "grammar/names.hpp"

namespace levigate {

struct PastedAmount {
    enum class How : std::uint8_t {
        turned,  ///< `soft base: 82 %`
        parted,  ///< `82 % - soft base`
        about,   ///< `ca. 5 % kaolin`
        limit,   ///< `kaolin < 5 %`
        comma,   ///< `5 % kaolin, sieved`
        range,   ///< `5-8 % kaolin`
        rest,    ///< `q.s. soft base`, `soft base to 100 %`
        bare,    ///< `soft base: 82`
        row,     ///< `soft base | 82 %`
    };
    How how = How::turned;
    std::vector<std::string> amounts;  ///< as they are written here; several where one is meant
    std::string name;
    std::string word = {};    ///< `ca.`
    std::string beside = {};  ///< what else the row says
};

/// The line in plain words: without the marks of web pages and of other programs, with a `|`
/// between the cells of a table.
std::string without_marks(std::string_view line);

/// What the line, without marks, says; nothing where it is no amount and a name.
std::optional<PastedAmount> pasted_amount(std::string_view line, const Names& names);

/// True where the whole text is an amount, as people write one.
bool is_pasted_amount(std::string_view text);

}  // namespace levigate

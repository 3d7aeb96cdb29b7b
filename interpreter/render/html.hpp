#pragma once
// HTML: documents as a piece of a page, and whole pages that stand alone. One file, nothing
// fetched, nothing sent: the policy in its head lets only the style and the script run that it
// carries, each known by its SHA-256 (W3C Content Security Policy Level 3, hash sources).

#include <string>
#include <string_view>

#include "grammar/isolates.hpp"
#include "interpreter/render/document.hpp"

namespace levigate {

/// A text that reads as itself between tags and inside a quoted attribute: the one place where text
/// becomes HTML. Passes through `shown`.
void append_escaped(std::string& out, std::string_view text);
std::string html_escaped(std::string_view text);

/// A piece of HTML in which each name from right to left has an element of its own that takes its
/// direction from it, so that no number beside it is moved.
std::string with_names_apart(std::string body, const Isolates& isolates);

/// Its blocks one behind the other. `deeper` is added to the level of every heading.
void append_html(std::string& out, const document::Document& document, int deeper = 0);

struct HtmlPage {
    std::string_view title;  ///< a text
    std::string_view body;   ///< HTML
    bool ticks = false;      ///< holds tick boxes, and brings the script that keeps them
};
/// The whole file. What was ticked is kept under a digest of the body: on a page that says anything
/// else, nothing is ticked.
std::string html_page(const HtmlPage& page);

}  // namespace levigate

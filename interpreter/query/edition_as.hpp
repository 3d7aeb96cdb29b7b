#pragma once
// An edition in each form that it goes out in. What comes is a function of the edition's text.

#include <optional>
#include <string>

#include "interpreter/share/share.hpp"

namespace levigate {

enum class EditionForm { shade, markdown, html, csv, json };

/// None for a page of more than any phone shows.
std::optional<std::string> edition_as(const Shared& shared, EditionForm form);

}  // namespace levigate

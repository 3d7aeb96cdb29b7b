#pragma once
// What several writers of JSON share.

#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

namespace levigate {

nlohmann::ordered_json text_or_null(std::string_view text);  ///< null for an empty text

/// In one line; broken UTF-8 becomes the replacement character.
std::string json_line(const nlohmann::ordered_json& json);

}  // namespace levigate

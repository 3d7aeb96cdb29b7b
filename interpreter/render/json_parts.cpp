#include "interpreter/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace levigate {

using Json = nlohmann::ordered_json;

Json text_or_null(std::string_view text) { return text.empty() ? Json() : Json(text); }

std::string json_line(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace levigate

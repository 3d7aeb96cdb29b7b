// Causes in words.
#include <fmt/format.h>

#include "interpreter/changes/changes_document.hpp"

namespace levigate {
namespace {

std::string inside(const Cause& cause, bool several) {
    const std::string_view it = several ? "them" : "it";
    if (cause.via.empty()) return fmt::format("{} in {} {}", cause.name, it, cause.how);
    return fmt::format("{} in {} is like {}, which {}", cause.via, it, cause.name, cause.how);
}

std::string phrase(const Cause& cause, bool several) {
    const std::string_view its = several ? "their" : "its";
    const std::string which = cause.how == "changed" ? "" : ", which " + cause.how;
    switch (cause.by) {
        case Cause::By::itself:
            return cause.how == "changed" ? ""
                                          : fmt::format("{} lines stand in another order", its);
        case Cause::By::like:
            return fmt::format("{} like {}{}", several ? "they are" : "it is", cause.name, which);
        case Cause::By::from:
            return fmt::format("{} from {}{}", several ? "they come" : "it comes", cause.name,
                               which);
        case Cause::By::inside: return inside(cause, several);
        case Cause::By::variant: return fmt::format("{} variant {} {}", its, cause.name, cause.how);
        case Cause::By::finish: return fmt::format("{} finish {} {}", its, cause.name, cause.how);
        case Cause::By::unit:
            return cause.how.ends_with("now")
                       ? fmt::format("1 {} {}", cause.name, cause.how)
                       : fmt::format("the measure {} {}", cause.name, cause.how);
        case Cause::By::container: return fmt::format("the {} {}", cause.name, cause.how);
        case Cause::By::balance: return fmt::format("the balance {} {}", cause.name, cause.how);
        case Cause::By::rate: return fmt::format("the rate of {} {}", cause.name, cause.how);
        case Cause::By::rules: return fmt::format("{} {} in the rules", cause.name, cause.how);
    }
    return {};
}

}  // namespace

std::string because(const std::vector<Cause>& causes, bool several) {
    std::string out;
    for (const Cause& cause : causes) {
        const std::string words = phrase(cause, several);
        if (words.empty()) continue;
        out += out.empty() ? "because " : ", and because ";
        out += words;
    }
    return out;
}

}  // namespace levigate

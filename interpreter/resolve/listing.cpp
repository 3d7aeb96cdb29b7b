// Names that nobody wrote and an ingredient list may need: later phases compare names by number,
// and make no new ones.

#include "interpreter/resolve/context.hpp"

namespace levigate::resolving {

void name_what_lists_need(Context& context) {
    for (const Material& material : context.out.materials)
        for (const LabelPart& part : material.label)
            if (context.names.folded(part.sym).ends_with("(nano)"))
                for (const Called& index : material.colour_indices)
                    context.names.intern(index.name + " (nano)");
    for (const Rule& rule : context.out.rules)
        if (!rule.label.empty()) context.names.intern(rule.label + " Lake");
}

}  // namespace levigate::resolving

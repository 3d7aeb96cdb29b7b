#include "interpreter/render/findings_json.hpp"

#include <nlohmann/json.hpp>

#include "interpreter/render/findings.hpp"

namespace levigate {
namespace {

using Json = nlohmann::ordered_json;

void put_place(Json& json, const Sources& sources, Span span) {
    if (span.source >= sources.size()) {
        for (const char* key : {"file", "line", "column", "end_line", "end_column"})
            json[key] = nullptr;
        return;
    }
    const Position begin = sources.position(span), end = sources.end_position(span);
    json["file"] = sources[span.source].name;
    json["line"] = begin.line;
    json["column"] = begin.column;
    json["end_line"] = end.line;
    json["end_column"] = end.column;
}

Json fix_json(const Sources& sources, const Fix& fix) {
    Json json;
    put_place(json, sources, fix.span);
    json["text"] = fix.text;
    json["certain"] = fix.certain;
    return json;
}

Json note_json(const Sources& sources, const Note& note) {
    Json json;
    put_place(json, sources, note.span);
    json["text"] = note.text;
    return json;
}

}  // namespace

Json finding_json(const Sources& sources, const Finding& finding) {
    Json json;
    json["code"] = row_of(finding.code).name;
    json["severity"] = severity_word(finding.severity);
    json["message"] = finding.message;
    if (const std::string& words = remedy(finding); !words.empty()) json["remedy"] = words;
    put_place(json, sources, finding.span);
    Json& fixes = json["fixes"] = Json::array();
    for (const Fix& fix : finding.fixes) fixes.push_back(fix_json(sources, fix));
    Json& notes = json["labels"] = Json::array();
    for (const Note& note : finding.notes) notes.push_back(note_json(sources, note));
    return json;
}

Json findings_json(const Sources& sources, const Findings& findings) {
    Json list = Json::array();
    for (const Finding& finding : findings) list.push_back(finding_json(sources, finding));
    return list;
}

std::string findings_array(const Sources& sources, const Findings& findings) {
    return findings_json(sources, findings).dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json findings_json(const std::vector<FoundIn>& all) {
    Json list = Json::array();
    for (const FoundIn& one : all)
        for (const Finding& finding : one.findings)
            list.push_back(finding_json(*one.sources, finding));
    return list;
}

}  // namespace levigate

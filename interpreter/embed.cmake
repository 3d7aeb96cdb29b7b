# Turns text files into one C++ source each group, so that the command carries them inside.
#
#   levigate_embed(FUNCTION GLOB)   at configure time: adds the rule, appends to embedded_sources
#   cmake -P embed.cmake            at build time: writes the source (see the foot of this file)
#
# The text is written as \xHH escapes in literals of 32 bytes: every byte survives as it is,
# whatever the file holds, and the pieces concatenate to one literal that compiles at once.

function(levigate_embed function_name pattern)
    file(GLOB pages CONFIGURE_DEPENDS "${CMAKE_CURRENT_SOURCE_DIR}/${pattern}")
    list(SORT pages)
    set(output "${CMAKE_CURRENT_BINARY_DIR}/embedded/${function_name}.cpp")
    # The list goes through a file: it marks the source as old when a page comes or goes,
    # and no command line is too short for it.
    set(list_file "${CMAKE_CURRENT_BINARY_DIR}/embedded/${function_name}.list")
    string(REPLACE ";" "\n" page_lines "${pages}")
    file(CONFIGURE OUTPUT "${list_file}" CONTENT "${page_lines}\n" @ONLY)
    set(script "${CMAKE_CURRENT_FUNCTION_LIST_FILE}")
    add_custom_command(
        OUTPUT "${output}"
        COMMAND "${CMAKE_COMMAND}" "-DEMBED_LIST=${list_file}" "-DEMBED_FUNCTION=${function_name}"
                "-DEMBED_OUTPUT=${output}" -P "${script}"
        DEPENDS ${pages} "${list_file}" "${script}"
        COMMENT "Embedding ${pattern}"
        VERBATIM)
    set(embedded_sources ${embedded_sources} "${output}" PARENT_SCOPE)
endfunction()

function(levigate_write_embedded list_file function_name output)
    file(STRINGS "${list_file}" pages ENCODING UTF-8)
    set(entries "")
    foreach(page IN LISTS pages)
        get_filename_component(name "${page}" NAME_WLE)
        if(function_name STREQUAL "page_parts")
            get_filename_component(name "${page}" NAME) # page.css beside ticks.js
        endif()
        if(function_name STREQUAL "library_pages")
            string(REPLACE "-" " " name "${name}") # stdlib/lip-materials.shade: use lip materials
        endif()
        file(READ "${page}" hex HEX)
        string(LENGTH "${hex}" length)
        math(EXPR length "${length} / 2")
        string(REGEX REPLACE "(..)" "\\\\x\\1" text "${hex}")
        string(REPEAT "." 128 piece) # 32 bytes, four characters each
        string(REGEX REPLACE "(${piece})" "\\1\"\n     \"" text "${text}")
        string(APPEND entries "    {\"${name}\"sv,\n     {\"${text}\",\n      ${length}}},\n")
    endforeach()
    list(LENGTH pages count)
    file(WRITE "${output}" "// Written by interpreter/embed.cmake: don't edit.
#include \"interpreter/embedded.hpp\"

#include <array>

namespace levigate {
using namespace std::string_view_literals;

static constexpr std::array<EmbeddedPage, ${count}> pages{{
${entries}}};

std::span<const EmbeddedPage> ${function_name}() { return pages; }

} // namespace levigate
")
endfunction()

if(CMAKE_SCRIPT_MODE_FILE AND EMBED_OUTPUT)
    levigate_write_embedded("${EMBED_LIST}" "${EMBED_FUNCTION}" "${EMBED_OUTPUT}")
endif()

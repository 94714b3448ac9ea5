#pragma once
/// \file
/// Text that a file from a stranger may hold.

#include <string>
#include <vector>

namespace skeinfall::support {

/// Turns the screen red, rings, goes back to the line's start, ends in half a character.
inline const std::string steering =
    "a\x1b[31mb\x07\rc\nd\x7f\xc2\x9b\xe2\x80\xae"
    "e\xe2\x82";

/// Markup in every kind of place.
inline const std::vector<std::string> markup{
    "1. x",  "2) x",         "# x",     " # x",   "    code", "- x",
    "+ x",   "* x",          "> x",     "=====",  "---",      "<script>x</script>",
    "a|b|c", "[x](y)",       "![x](y)", "`x`",    "_x_ *y*",  "~~x~~",
    "&amp;", "\\# x",        "\\",      "<!-- x", "``` x",    "x\n# y",
    "\t- x", "[x]: http://y"};

/// True when no byte could steer a terminal; lines may end.
inline bool is_inert(const std::string& text) {
    for (const char c : text)
        if ((c >= 0 && c < 0x20 && c != '\n') || c == 0x7f) return false;
    return text.find("\xe2\x80\xae") == std::string::npos &&
           text.find("\xc2\x9b") == std::string::npos;
}

}  // namespace skeinfall::support

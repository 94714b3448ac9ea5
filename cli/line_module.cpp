// The module that answer_line() loads: a line edited with libedit.

#include <algorithm>
#include <clocale>
#include <cstdio>
#include <string>
#include <vector>

#include <histedit.h>

#include "skeinfall/base/text.hpp"

#include "answer_line.hpp"

extern "C" bool skeinfall_line(const std::string& prompt, const std::vector<std::string>& likely,
                               std::string& line);

namespace {

struct Asked {
    std::string prompt;
    const std::vector<std::string>* likely = nullptr;
};

Asked* asked_of(EditLine* editor) {
    void* asked = nullptr;
    el_get(editor, EL_CLIENTDATA, &asked);
    return static_cast<Asked*>(asked);
}

char* prompt_of(EditLine* editor) {
    return asked_of(editor)->prompt.data();
}

/// The bytes that all of them begin with, whatever their case.
std::size_t shared_start(const std::vector<std::string>& words) {
    std::size_t shared = words.front().size();
    for (const std::string& word : words) {
        const std::string a = skeinfall::base::lower(words.front());
        const std::string b = skeinfall::base::lower(word);
        const auto apart = std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first;
        shared = std::min(shared, static_cast<std::size_t>(apart - a.begin()));
    }
    return shared;
}

unsigned char complete(EditLine* editor, int) {
    const LineInfo* const info = el_line(editor);
    const std::string typed(info->buffer, info->cursor);
    const std::string wanted = skeinfall::base::lower(typed);
    std::vector<std::string> fits;
    for (const std::string& word : *asked_of(editor)->likely)
        if (skeinfall::base::lower(word).starts_with(wanted)) fits.push_back(word);
    if (fits.empty()) return CC_REFRESH_BEEP;
    const std::string more = fits.front().substr(0, shared_start(fits));
    if (more.size() > typed.size()) {
        el_deletestr(editor, static_cast<int>(typed.size()));
        el_insertstr(editor, more.c_str());
        return CC_REFRESH;
    }
    if (fits.size() == 1) return CC_REFRESH_BEEP;
    std::fputc('\n', stderr);
    for (const std::string& word : fits)
        std::fprintf(stderr, "  %s\n", skeinfall::base::shown_inert(word).c_str());
    return CC_REDISPLAY;
}

/// The end of the answers typed before the terminal listens for single keys comes as a zero byte.
unsigned char end(EditLine* editor, int) {
    const LineInfo* const info = el_line(editor);
    return info->lastchar == info->buffer ? CC_EOF : CC_NORM;
}

/// Letters of more than one byte are edited as letters while it lives.
class Utf8 {
  public:
    Utf8() : before_(std::setlocale(LC_CTYPE, nullptr)) { std::setlocale(LC_CTYPE, "C.UTF-8"); }
    ~Utf8() { std::setlocale(LC_CTYPE, before_.c_str()); }
    Utf8(const Utf8&) = delete;
    Utf8& operator=(const Utf8&) = delete;
    Utf8(Utf8&&) = delete;
    Utf8& operator=(Utf8&&) = delete;

  private:
    std::string before_;
};

EditLine* made() {
    EditLine* const editor = el_init("skeinfall", stdin, stderr, stderr);
    if (editor == nullptr) return nullptr;
    el_set(editor, EL_PROMPT, &prompt_of);
    el_set(editor, EL_EDITOR, "emacs");
    el_set(editor, EL_SIGNAL, 1);
    el_set(editor, EL_ADDFN, "likely", "completes what is likely", &complete);
    el_set(editor, EL_BIND, "\t", "likely", nullptr);
    el_set(editor, EL_ADDFN, "end", "ends the answers", &end);
    el_set(editor, EL_BIND, "^@", "end", nullptr);
    return editor;
}

}  // namespace

bool skeinfall_line(const std::string& prompt, const std::vector<std::string>& likely,
                    std::string& line) {
    const Utf8 letters;
    // One for all lines: to end it throws away what was typed ahead.
    static EditLine* const editor = made();
    if (editor == nullptr) return false;
    Asked asked{prompt, &likely};
    el_set(editor, EL_CLIENTDATA, &asked);
    int length = 0;
    // Before the prompt: who answers it at once must not be echoed, nor her Ctrl-D taken for a
    // line.
    el_set(editor, EL_PREP_TERM, 1);
    const char* const typed = el_gets(editor, &length);
    const bool some = typed != nullptr && length > 0;
    if (some) line.assign(typed, static_cast<std::size_t>(length));
    while (!line.empty() && (line.back() == '\n' || line.back() == '\r')) line.pop_back();
    return some;
}

#pragma once
/// \file
/// The text of a project file made of answers; every line knows which answer it comes from.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/make_words.hpp"

namespace skeinfall::exchange::detail {

/// A basic string of TOML.
[[nodiscard]] std::string in_toml(std::string_view text);

class AnswerText {
  public:
    void comment(const std::string& text) { line("# " + text, {}); }
    void blank() { line("", {}); }
    void table(const std::string& name, const std::string& question) {
        if (!text_.empty()) blank();
        line("[" + name + "]", question);
    }
    void text(const std::string& key, const std::string& value, const std::string& question) {
        line(key + " = " + in_toml(value), question);
    }
    void bare(const std::string& key, const std::string& value, const std::string& question) {
        line(key + " = " + value, question);
    }
    [[nodiscard]] const std::string& written() const { return text_; }
    [[nodiscard]] std::string question_at(std::size_t line) const {
        return line == 0 || line > questions_.size() ? std::string() : questions_[line - 1];
    }

  private:
    void line(const std::string& text, const std::string& question) {
        text_ += text + "\n";
        questions_.push_back(question);
    }

    std::string text_;
    std::vector<std::string> questions_;
};

/// A table of a swatch. `role` names its yarn; empty: the only one. `stitch` is the make's own,
/// which needs no word, and `scale` the step of the maker's scale.
void write_swatch(AnswerText& out, const WrittenSwatch& swatch, const std::string& role,
                  const std::string& stitch, const std::optional<std::string>& scale);

/// A part of the finish. `role` as above; `stitch` is the make's, `label` what the yarn's says. A
/// problem for rounds in another stitch and for a mass without a label.
[[nodiscard]] std::optional<base::Problem> write_extra(AnswerText& out, const WrittenExtra& extra,
                                                       const std::string& role,
                                                       const std::string& stitch,
                                                       const std::string& label);

/// What other answers say of every piece.
struct OfPieces {
    std::string stripes;  ///< in TOML; empty: none
    std::string yarn;     ///< where there are several and no stripes
    std::optional<std::string> edge;
    std::optional<std::string> multiple;
};
void write_piece(AnswerText& out, const WrittenPiece& piece, const OfPieces& all);

}  // namespace skeinfall::exchange::detail

#pragma once
/// \file
/// Messages without notes.

#include <ostream>
#include <streambuf>
#include <string>

namespace skeinfall::cli {

/// Passes everything on but the lines that begin with "note: ".
class WithoutNotes : public std::streambuf {
  public:
    explicit WithoutNotes(std::ostream& to) : to_(&to) {}

  protected:
    int_type overflow(int_type c) override {
        if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
        line_ += traits_type::to_char_type(c);
        if (!note.starts_with(line_) && !line_.starts_with(note)) {
            *to_ << line_.substr(passed_) << std::flush;
            passed_ = line_.size();
        }
        if (line_.back() == '\n') {
            line_.clear();
            passed_ = 0;
        }
        return c;
    }

  private:
    static inline const std::string note = "note: ";

    std::ostream* to_;
    std::string line_;
    std::size_t passed_ = 0;
};

}  // namespace skeinfall::cli

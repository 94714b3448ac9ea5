// The program as a person at a terminal meets it, and as a script does: it asks the one and never
// the other.

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

const std::string program = std::string(SKEINFALL_BINARY_DIR) + "/cli/skeinfall";

/// A folder of its own for a stash, gone afterwards.
class Place {
  public:
    Place() {
        std::string name = (fs::temp_directory_path() / "skeinfall-cli-XXXXXX").string();
        if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
        path_ = name;
    }
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    ~Place() {
        std::error_code ignored;
        fs::remove_all(path_, ignored);
    }
    [[nodiscard]] std::string stash() const { return (path_ / "stash").string(); }

  private:
    fs::path path_;
};

struct Said {
    std::string text;
    int code = -1;
};

[[noreturn]] void become(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), program);
    std::vector<char*> raw;
    for (std::string& argument : arguments) raw.push_back(argument.data());
    raw.push_back(nullptr);
    execv(program.c_str(), raw.data());
    _exit(99);
}

Said finished(pid_t child, int from) {
    Said out;
    std::array<char, 4096> block{};
    while (true) {
        const auto got = read(from, block.data(), block.size());
        if (got > 0)
            out.text.append(block.data(), static_cast<std::size_t>(got));
        else if (got == 0 || errno != EINTR)  // a terminal that is gone is an error to read
            break;
    }
    close(from);
    int status = 0;
    waitpid(child, &status, 0);
    if (WIFEXITED(status)) out.code = WEXITSTATUS(status);
    return out;
}

using Environment = std::map<std::string, std::string>;

/// Runs the program on a terminal where somebody types `typed`. `err_to` takes the messages away;
/// an empty value of `environment` takes that variable away.
Said at_terminal(const std::vector<std::string>& arguments, const std::string& typed,
                 const char* err_to = nullptr, const Environment& environment = {}) {
    int terminal = -1;
    const pid_t child = forkpty(&terminal, nullptr, nullptr, nullptr);
    if (child < 0) throw std::runtime_error("no terminal");
    if (child == 0) {
        if (err_to != nullptr) {
            const int other = open(err_to, O_WRONLY);
            if (other < 0 || dup2(other, STDERR_FILENO) < 0) _exit(98);
        }
        // All is typed ahead of the questions, the end of it too, which an edited line would not
        // see; shell/answers.py edits lines.
        if (!typed.empty() && setenv("TERM", "dumb", 1) != 0) _exit(97);
        for (const auto& [name, value] : environment)
            if (value.empty() ? unsetenv(name.c_str()) != 0
                              : setenv(name.c_str(), value.c_str(), 1) != 0)
                _exit(97);
        become(arguments);
    }
    if (write(terminal, typed.data(), typed.size()) != static_cast<ssize_t>(typed.size()))
        throw std::runtime_error("cannot type");
    return finished(child, terminal);
}

/// Runs it with nothing to read, all it says in a pipe; `out_to` takes the data away.
Said without_terminal(const std::vector<std::string>& arguments, const char* out_to = nullptr) {
    std::array<int, 2> ends{};
    if (pipe(ends.data()) != 0) throw std::runtime_error("no pipe");
    const pid_t child = fork();
    if (child < 0) throw std::runtime_error("no process");
    if (child == 0) {
        const int nothing = open("/dev/null", O_RDONLY);
        const int out = out_to == nullptr ? ends[1] : open(out_to, O_WRONLY);
        if (dup2(nothing, STDIN_FILENO) < 0 || dup2(out, STDOUT_FILENO) < 0 ||
            dup2(ends[1], STDERR_FILENO) < 0)
            _exit(98);
        close(ends[0]);
        close(ends[1]);
        become(arguments);
    }
    close(ends[1]);
    return finished(child, ends[0]);
}

TEST(Terminal, AsksForWhatIsMissing) {
    const Place place;
    const Said said = at_terminal({"stash", "add", "--stash", place.stash()},
                                  "Cedar Lane\n170 yd / 3.5 oz\n4\n80% wool 20% nylon\nfern\n81\n"
                                  "part\n62 g\n1 g\n\n2\n");
    EXPECT_EQ(said.code, 0) << said.text;
    EXPECT_THAT(said.text,
                AllOf(HasSubstr("Press Enter for what you do not know."),
                      HasSubstr("Yarn (the name you know it by): "),
                      HasSubstr("How many skeins like this: "), HasSubstr("added s1, s2 to ")));
    const Said shown = without_terminal({"stash", "show", "s2", "--stash", place.stash()});
    EXPECT_THAT(shown.text, AllOf(HasSubstr("Cedar Lane"), HasSubstr("lot 81"),
                                  HasSubstr("62 g on a scale of 1 g")));
}

TEST(Terminal, AsksOnlyWhatNoOptionSaid) {
    const Place place;
    const Said said = at_terminal({"stash", "add", "--yarn", "Brook", "--label", "100 m / 50 g",
                                   "--part", "--weighed", "30 g", "--stash", place.stash()},
                                  "1 g\n");
    EXPECT_EQ(said.code, 0) << said.text;
    EXPECT_THAT(said.text, AllOf(HasSubstr("The smallest step your scale shows, such as 1 g: "),
                                 Not(HasSubstr("Yarn (the name")), HasSubstr("added s1")));
}

TEST(Terminal, ExplainsAMistakeAndAsksAgain) {
    const Place place;
    const Said said = at_terminal({"stash", "add", "--stash", place.stash()},
                                  "\n  \nBrook\n100\n100 m / 50 g\n12\n4\n\n\n\n\n\n0\n1\n");
    EXPECT_EQ(said.code, 0) << said.text;
    EXPECT_THAT(said.text, AllOf(HasSubstr("unknown weight class"), HasSubstr("the count is zero"),
                                 HasSubstr("added s1")));
}

TEST(Terminal, AnswersThatEndEarlyAddNothing) {
    const Place place;
    const Said said = at_terminal({"stash", "add", "--stash", place.stash()}, "Brook\n\x04");
    EXPECT_EQ(said.code, 2) << said.text;
    EXPECT_THAT(said.text, HasSubstr("nothing was added"));
    EXPECT_FALSE(fs::exists(place.stash()));
}

TEST(Terminal, SaysWhatWasAnsweredAndNeverTraps) {
    const Place place;
    const Said early =
        at_terminal({"stash", "add", "--stash", place.stash()}, "Brook\n100 m / 50 g\n\x04");
    EXPECT_THAT(early.text,
                HasSubstr("skeinfall stash add --yarn \"Brook\" --label \"100 m / 50 g\""));
    const Said trapped = at_terminal({"stash", "add", "--stash", place.stash()}, "\n\n\n");
    EXPECT_EQ(trapped.code, 2) << trapped.text;
    EXPECT_THAT(trapped.text, HasSubstr("nothing was added"));
}

TEST(Terminal, NewAsksAndWritesAProject) {
    const Place place;
    const std::string file = place.stash() + ".toml";
    const Said said =
        at_terminal({"new", file, "--stash", place.stash()},
                    "?\nscarf: 33 hdc\nscarf: 33 hdc x 96 rows\n14 sts and 10 rows per 10 "
                    "cm\n\n15 x 15 cm, 14 g\nback\n15 x 15 cm, 15 g\nBrook\n170 yd / 3.5 "
                    "oz\n\n\n\n\n\n\n\n");
    EXPECT_EQ(said.code, 0) << said.text;
    EXPECT_THAT(said.text,
                AllOf(HasSubstr("What are you making, and how big"),
                      HasSubstr("A name may stand before a colon"),  // explained
                      HasSubstr("One figure alone is half of it"),   // refused, and asked again
                      HasSubstr("wrote "), HasSubstr("15 g"),
                      Not(HasSubstr("from a swatch of 5.9 in x 5.9 in, 14 g"))));
    EXPECT_TRUE(fs::exists(file));
}

TEST(Terminal, NewKeepsWhatWasAnswered) {
    const Place place;
    const std::string file = place.stash() + ".toml";
    const Said first = at_terminal({"new", file, "--stash", place.stash()},
                                   "scarf: 33 hdc x 96 rows\n14 sts and 10 rows per 10 cm\nstop\n");
    EXPECT_EQ(first.code, 1) << first.text;
    EXPECT_THAT(first.text, HasSubstr("is kept"));
    EXPECT_FALSE(fs::exists(file));
    const Said second =
        at_terminal({"new", file, "--stash", place.stash()}, "\n\n\n\n\n\n\n\n\n380 yd\n\n\n");
    EXPECT_EQ(second.code, 0) << second.text;
    EXPECT_THAT(second.text, AllOf(HasSubstr("Going on with what you answered before"),
                                   HasSubstr("33 hdc x 96 rows"), HasSubstr("wrote ")));
}

// An answer that does not fit is told at its own question, and can be said as the hint has it.
TEST(Terminal, NewLooksAtATotalBesideItsMake) {
    const Place place;
    const std::string file = place.stash() + ".toml";
    const Said said = at_terminal({"new", file, "--stash", place.stash()},
                                  "2 hats: 60 sts x 40 rounds\nI don't know\nno\nnone\nno\nI "
                                  "don't know\nnone\ndon't know\nno\nnone\nno\n120 m\n240 m in "
                                  "all\nnone\nnone\n");
    EXPECT_EQ(said.code, 0) << said.text;
    EXPECT_THAT(said.text, AllOf(HasSubstr("it may be of one or of all"), HasSubstr("wrote ")));
}

TEST(Terminal, NewTakesAStitchThatIsOne) {
    const Place place;
    const std::string file = place.stash() + ".toml";
    const Said said =
        at_terminal({"new", file, "--stash", place.stash()},
                    "hat: 60 sts x 40 rounds\n5 mm\nflibber\nhdc\n14 sts and 10 rows per 10 "
                    "cm\n\n\n\n\n4\n\n\n\n\n\n\n");
    EXPECT_EQ(said.code, 0) << said.text;
    EXPECT_THAT(said.text,
                AllOf(HasSubstr("\"5 mm\" names no stitch"),
                      HasSubstr("\"flibber\" is not a stitch known here"), HasSubstr("wrote ")));
}

// The name is said first and the size asked; an answer gone back to is kept by Enter; and the yarn
// she has makes the verdict.
TEST(Terminal, NewKeepsAnswersAndEndsWithTheVerdict) {
    const Place place;
    const std::string file = place.stash() + ".toml";
    const Said said =
        at_terminal({"new", file, "--stash", place.stash()},
                    "a scarf\n33 hdc x 96 rows\n14 sts and 10 rows per 10 cm\nback\n\n\n\n"
                    "Brook\n170 yd / 3.5 oz\n\n\n\n\n\n\nlots\n9 skeins of 170 yd\n\n");
    EXPECT_EQ(said.code, 0) << said.text;
    EXPECT_THAT(said.text,
                AllOf(HasSubstr("How big is the scarf?"),
                      HasSubstr("you said: 14 sts and 10 rows per 10 cm; Enter keeps it"),
                      HasSubstr("How much yarn do you have?"), HasSubstr("does not say what yarn"),
                      HasSubstr("covered: scarf")));
}

TEST(Terminal, NewSaysThatNothingIsKeptWhereNothingIs) {
    const Place place;
    const Said said =
        at_terminal({"new", place.stash() + ".toml", "--stash", place.stash()}, "stop\n");
    EXPECT_EQ(said.code, 1) << said.text;
    EXPECT_THAT(said.text, HasSubstr("Nothing was answered, so nothing is kept."));
}

// Each step is there before the next is asked for.
TEST(Terminal, TourShowsEachStepBeforeItAsks) {
    const Said said = at_terminal({"tour"}, "next\nq\n");
    EXPECT_EQ(said.code, 0) << said.text;
    const std::size_t step = said.text.find("skeinfall stash import");
    EXPECT_LT(step, said.text.find("Enter for the next step")) << said.text;
    EXPECT_THAT(said.text, HasSubstr("Press Enter, or type stop."));
}

// What was begun for one file never goes into another.
TEST(Terminal, NewKeepsEachProjectApart) {
    const Place place;
    const std::string socks = place.stash() + "-socks.toml";
    const std::string mat = place.stash() + "-mat.toml";
    const Said first = at_terminal({"new", socks, "--stash", place.stash()},
                                   "2 socks: 60 sts x 100 rounds\nstop\n");
    EXPECT_THAT(first.text, HasSubstr("skeinfall new " + socks));
    const Said other = at_terminal({"new", mat, "--stash", place.stash()},
                                   "mat: 30 hdc x 30 rows\n\n\n\n\n\n4\n\n\n\n\n\n\n");
    EXPECT_THAT(other.text, AllOf(HasSubstr("goes on with it"), Not(HasSubstr("2 socks")),
                                  HasSubstr("wrote " + mat)))
        << other.text;
    const Said again = at_terminal({"new", socks, "--stash", place.stash()},
                                   "hat: 3\n\nback\n1 sock: 60 sts x 100 rounds\nstop\n");
    EXPECT_THAT(again.text, AllOf(HasSubstr("Going on with what you answered before"),
                                  HasSubstr("is not an answer to this"),
                                  Not(HasSubstr("This is the first question"))));
}

TEST(Terminal, StashAddExplainsAndGoesBack) {
    const Place place;
    const Said said = at_terminal({"stash", "add", "--stash", place.stash()},
                                  "?\nBrook\n100 m / 50 g\n4\nnone\nback\nback\n3\nno\nmoss\n"
                                  "don't know\n\n\n\n");
    EXPECT_EQ(said.code, 0) << said.text;
    EXPECT_THAT(said.text, AllOf(HasSubstr("Any name you know it by, such as Cedar Lane."),
                                 HasSubstr("added")));
    const Said shown = without_terminal({"stash", "export", "--stash", place.stash()});
    EXPECT_THAT(shown.text, AllOf(HasSubstr("Brook"), HasSubstr("moss"), Not(HasSubstr("back")),
                                  Not(HasSubstr("don't know"))));
}

TEST(Terminal, NobodyIsAskedWithoutOne) {
    const Place place;
    const std::vector<std::string> add{"stash", "add", "--stash", place.stash()};
    const Said said = without_terminal(add);
    EXPECT_EQ(said.code, 2);
    EXPECT_THAT(said.text, AllOf(HasSubstr("the yarn has no name"), Not(HasSubstr("Press Enter"))));
    // Nor when the question would not be seen.
    EXPECT_EQ(at_terminal(add, "", "/dev/null").code, 2);
    EXPECT_FALSE(fs::exists(place.stash()));
}

// no-color.org: a NO_COLOR that is not empty takes colour away; "dumb" is terminfo's name for a
// terminal that can do nothing but print.
TEST(Terminal, ColoursOnlyWhereTheyAreWanted) {
    const Place place;
    EXPECT_EQ(without_terminal({"stash", "add", "--yarn", "Gorsebrook Worsted", "--label",
                                "200 yd / 100 g", "--count", "2", "--stash", place.stash()})
                  .code,
              0);
    const std::vector<std::string> cover{
        "cover", std::string(SKEINFALL_SOURCE_DIR) + "/sample_stash/projects/lantern-cowl.toml",
        "--stash", place.stash()};
    const auto coloured = [&](const std::string& terminal, const std::string& no_colour) {
        const Said said =
            at_terminal(cover, "", nullptr, {{"TERM", terminal}, {"NO_COLOR", no_colour}});
        EXPECT_THAT(said.text, HasSubstr("Lantern cowl")) << said.code;
        return said.text.find('\x1b') != std::string::npos;
    };
    EXPECT_TRUE(coloured("xterm", ""));
    EXPECT_FALSE(coloured("xterm", "1"));
    EXPECT_FALSE(coloured("dumb", ""));
    EXPECT_FALSE(coloured("", ""));
    EXPECT_EQ(without_terminal(cover).text.find('\x1b'), std::string::npos);
}

TEST(Terminal, OutputThatCannotBeWrittenIsNoSuccess) {
    const Place place;
    EXPECT_EQ(without_terminal({"stash", "add", "--yarn", "Brook", "--stash", place.stash()}).code,
              0);
    const Said said = without_terminal({"stash", "export", "--stash", place.stash()}, "/dev/full");
    EXPECT_EQ(said.code, 2);
    EXPECT_THAT(said.text, HasSubstr("the output could not be written"));
}

}  // namespace

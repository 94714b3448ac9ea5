#pragma once
/// \file
/// The stash file: an SQLite database that keeps the skeins a maker owns and what happened to them.
///
/// One file, laid out by schema/schema.sql. A Store is one connection; use it from one thread.
/// Several Stores, also of several programs, may be open on one file: a reader sees the stash as
/// it stood before or after a change, a writer waits for another, see Waiting. While a
/// writer is open, SQLite keeps "-wal" and "-shm" files beside the stash; at rest it is one file.
/// Nothing that was entered is ever changed: an entry is undone by another one.

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/day.hpp"
#include "skeinfall/stash/lines.hpp"
#include "skeinfall/stash/movement.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/stash/work_reading.hpp"

namespace skeinfall::store {

/// Stands in the header of every stash file ("SKNF") and tells it from other SQLite files.
inline constexpr int application_id = 0x534B4E46;

enum class Access { read, write };

/// How long a program waits for others that write to the same file. All look at equal intervals,
/// and who has waited longer looks more often, so that newcomers do not overtake for ever.
struct Waiting {
    std::chrono::milliseconds at_most{30'000};
    std::function<void()> tell;  ///< called once, when it has taken a second
};

/// A stash of an older layout was brought up to date when it was opened.
struct Upgrade {
    int from = 0;
    int to = 0;
    std::filesystem::path copy;  ///< the stash as it was
};

using stash::Event;
using stash::Line;

/// How lines of a file are taken in.
struct TakeIn {
    base::Day entered{};
    /// False when the file states no days: then days do not count when a skein of the file is
    /// compared with one of the stash.
    bool days_stated = true;
    bool only_try = false;          ///< change nothing, tell what would come of it
    bool as_new = false;            ///< rows without an id are new skeins, whatever came in before
    bool leave_out_faulty = false;  ///< take in what can be, see TakenIn::left_out
    std::function<void(std::size_t)> progress;  ///< called with the lines done, now and then
};

/// What came of it: ids in the order of the file.
struct TakenIn {
    std::vector<std::string> added;
    std::vector<std::string> left_alone;  ///< were there already, with the same content
    std::vector<std::string> corrected;   ///< were there, and are described anew
    std::vector<std::string> reweighed;   ///< left alone, though the file has another weighing
    std::vector<std::string> seen;        ///< came in earlier with rows without an id, just so
    /// A row without an id that is like one which came in earlier and is gone from the file.
    struct Reworded {
        std::string id;       ///< the skein of the earlier row
        base::Place place;    ///< of the row, of which nothing was taken in
        std::string differs;  ///< "the note"
    };
    std::vector<Reworded> reworded;
    std::vector<std::string> gone;  ///< came in with rows of the same file that are gone; kept
    std::size_t readings = 0;       ///< of work in progress, added
    base::Problems left_out;        ///< what was wrong with lines left out
};

/// An entry of a stash.
struct KeptEntry {
    std::filesystem::path stash;
    std::int64_t number = 0;

    bool operator==(const KeptEntry&) const = default;
};

/// The last entry that this program has kept, in any stash; nothing before the first.
[[nodiscard]] std::optional<KeptEntry> last_kept();

/// Records that the answer to the command that made the entry could not be printed. `command` is
/// any text that tells commands apart. Throws base::StoreError.
void note_unanswered(const KeptEntry& entry, const std::string& command, base::Day day);

/// An entry whose answer could not be printed.
struct Unanswered {
    base::Day noted{};
    std::vector<std::string> skeins;  ///< ids of those it is about, in order
};

/// Records that verify() found nothing. Throws base::StoreError.
void note_whole_check(const std::filesystem::path& stash, base::Day day);

/// What an undone entry had entered.
struct Undone {
    std::vector<stash::Movement> movements;
    std::vector<stash::WorkReading> readings;
};

class Connection;

/// Every function throws base::StoreError, naming the file, when the file cannot be used.
class Store {
  public:
    /// Opens a stash file after checking that it is one, that this version knows its layout and
    /// that it is whole (of a file above `checked_when_opened` bytes only what is read is checked;
    /// verify() of care.hpp checks all of it). Symbolic links are followed. `write` makes the
    /// file, and the folders above it, when missing, and brings an older layout up to date after
    /// checking and copying it; with `read` either is a StoreError that says what to do.
    [[nodiscard]] static Store open(const std::filesystem::path& path, Access access,
                                    Waiting waiting = {});

    static constexpr std::uintmax_t checked_when_opened = std::uintmax_t{1024} * 1024;

    Store(Store&&) noexcept;
    Store& operator=(Store&&) noexcept;
    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;
    ~Store();

    /// Nothing when the stash had the current layout.
    [[nodiscard]] const std::optional<Upgrade>& upgrade() const;

    /// Adds all skeins, bought and if need be weighed on `day`, or, when anything is wrong with
    /// any of them, none. A skein without an id gets one ("s1", "s2", ...) that no skein of this
    /// stash ever had. Returns the ids in the order of `skeins`. Throws base::InputError with
    /// every problem: an id that was used before, text that is not UTF-8 or holds a zero byte, a
    /// figure the layout does not allow.
    std::vector<std::string> add(const std::vector<stash::Skein>& skeins, base::Day day);

    /// Records the movements as one entry, all or none. Throws base::InputError with every
    /// problem. Returns the id of each movement's skein.
    std::vector<std::string> record(const std::vector<stash::Movement>& movements,
                                    base::Day entered);

    /// Winds `amount` off a skein into a new part skein of the same description and returns the
    /// new id. `movement` is the one of the old skein; an empty `other` has an id given.
    std::string wind_off(const stash::Movement& movement, base::Day entered);

    /// Records promises (movements "set aside") as one entry, all or none. Each skein of `seen`
    /// must still be as it is there, so that no promise rests on what another program changed
    /// meanwhile. Throws base::InputError with every problem.
    void set_aside(const std::vector<stash::Movement>& promises,
                   const std::vector<stash::Skein>& seen, base::Day entered);

    /// Records readings of work in progress as one entry, and with it what the last of each skein
    /// says of a skein that is held: it is weighed, or, where an amount of it is set aside, so much
    /// of it went into the project. Throws base::InputError.
    void note(const std::vector<stash::WorkReading>& readings, base::Day entered);

    /// Takes in the lines of a file, all or none. A skein whose id is in the stash already is
    /// left alone when its lines are the first, or all, of what the stash knows of it; a row that
    /// describes it otherwise corrects it, as an entry of the history (an empty cell takes nothing
    /// away; a quite different yarn is no correction), and whatever else does not agree is a
    /// problem. Rows without an id are held against what came in before (stash::compare_sheet()),
    /// so that a sheet that comes again adds what is new in it. A reading that is in the stash
    /// already is left alone. Throws base::InputError with every problem.
    TakenIn take_in(const stash::Lines& lines, const TakeIn& how,
                    const std::vector<stash::WorkReading>& readings = {});

    /// Undoes the newest entry that was not undone yet, and returns what it held. Throws
    /// base::InputError when there is none, or only what an older layout kept.
    Undone undo(base::Day entered);

    /// The newest entry that stands and was made by `command`, whose answer could not be printed.
    [[nodiscard]] std::optional<Unanswered> unanswered(const std::string& command) const;

    /// Nothing is said of that any more.
    void forget_unanswered(const std::string& command);

    /// Since when a file that opening checks in part only was not checked whole: since the last
    /// note_whole_check(), or the first entry. Nothing when opening checks all of it.
    [[nodiscard]] std::optional<base::Day> not_checked_whole_since() const;

    /// Every skein that is held, in the order they came.
    [[nodiscard]] std::vector<stash::Skein> skeins() const;

    /// The skein with this id, or nothing when it is not held.
    [[nodiscard]] std::optional<stash::Skein> skein(std::string_view id) const;

    /// The ids of skeins(), in the same order.
    [[nodiscard]] std::vector<std::string> ids() const;

    /// Everything that was ever entered for a skein, in order; empty for an unknown id.
    [[nodiscard]] std::vector<Event> history(std::string_view id) const;

    /// Every movement that was not undone, in the order they were entered.
    [[nodiscard]] std::vector<stash::Movement> movements() const;

    /// Every reading that was not undone, in the order they were entered.
    [[nodiscard]] std::vector<stash::WorkReading> readings() const;

    /// Those of one yarn of a project that count: from the last one on that begins afresh.
    [[nodiscard]] std::vector<stash::WorkReading> readings(std::string_view project,
                                                           std::string_view role) const;

  private:
    [[nodiscard]] std::vector<stash::Line> said_of_skeins(
        const std::vector<stash::WorkReading>& readings) const;
    explicit Store(std::unique_ptr<Connection> connection);
    std::unique_ptr<Connection> connection_;
};

}  // namespace skeinfall::store

#pragma once
/// \file
/// A line on the terminal while a command takes long.

#include <chrono>
#include <condition_variable>
#include <iosfwd>
#include <mutex>
#include <streambuf>
#include <string>
#include <thread>

namespace skeinfall::cli {

/// From one second on says on the terminal what is under way and since when, and takes it away
/// again before anything else is written there and at the end. Its own thread takes no signals.
class Busy {
  public:
    /// `screen` must outlive it.
    explicit Busy(std::ostream& screen);
    Busy(const Busy&) = delete;
    Busy(Busy&&) = delete;
    Busy& operator=(const Busy&) = delete;
    Busy& operator=(Busy&&) = delete;
    ~Busy();

    /// What is under way, such as "4000 of 9000 rows".
    void say(std::string what);
    /// Messages for the same screen go here.
    [[nodiscard]] std::ostream& messages() { return messages_; }

  private:
    /// Clears the line before it passes text on.
    class Passing : public std::streambuf {
      public:
        explicit Passing(Busy& busy) : busy_(&busy) {}

      protected:
        int_type overflow(int_type c) override;
        std::streamsize xsputn(const char* text, std::streamsize size) override;
        int sync() override;

      private:
        Busy* busy_;
    };

    void work();
    void clear();

    std::ostream& screen_;
    std::mutex mutex_;
    std::condition_variable ends_;
    bool ended_ = false;
    std::string what_ = "working";
    std::size_t shown_ = 0;  ///< columns on the screen
    std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
    Passing passing_;
    std::ostream messages_;
    std::thread thread_;
};

}  // namespace skeinfall::cli

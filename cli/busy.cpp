#include "busy.hpp"

#include <csignal>
#include <ostream>
#include <utility>

namespace skeinfall::cli {

Busy::Busy(std::ostream& screen) : screen_(screen), passing_(*this), messages_(&passing_) {
    sigset_t all;
    sigset_t before;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before);
    thread_ = std::thread([this] { work(); });
    pthread_sigmask(SIG_SETMASK, &before, nullptr);
}

Busy::~Busy() {
    {
        const std::lock_guard lock(mutex_);
        ended_ = true;
    }
    ends_.notify_all();
    thread_.join();
    clear();
    screen_.flush();
}

void Busy::say(std::string what) {
    const std::lock_guard lock(mutex_);
    what_ = std::move(what);
}

void Busy::work() {
    std::unique_lock lock(mutex_);
    while (!ends_.wait_for(lock, std::chrono::seconds(1), [this] { return ended_; })) {
        const auto passed = std::chrono::duration_cast<std::chrono::seconds>(
            std::chrono::steady_clock::now() - begin_);
        const std::string line = what_ + ", " + std::to_string(passed.count()) + " s";
        clear();
        screen_ << line << std::flush;
        shown_ = line.size();
    }
}

void Busy::clear() {
    if (shown_ == 0) return;
    screen_ << '\r' << std::string(shown_, ' ') << '\r';
    shown_ = 0;
}

Busy::Passing::int_type Busy::Passing::overflow(int_type c) {
    if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
    const char letter = traits_type::to_char_type(c);
    return xsputn(&letter, 1) == 1 ? c : traits_type::eof();
}

std::streamsize Busy::Passing::xsputn(const char* text, std::streamsize size) {
    const std::lock_guard lock(busy_->mutex_);
    busy_->clear();
    busy_->screen_.write(text, size);
    return size;
}

int Busy::Passing::sync() {
    const std::lock_guard lock(busy_->mutex_);
    busy_->screen_.flush();
    return 0;
}

}  // namespace skeinfall::cli

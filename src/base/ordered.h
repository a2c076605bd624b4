#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <exception>
#include <functional>
#include <mutex>
#include <optional>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

namespace rtcmend {

/// Work on several threads whose results come back in the order in which the work was handed out.
///
/// `next` gives a task or nothing at the end, `take` gets the results; both are called in the
/// calling thread alone. `make_worker` is called there too, once for each thread, and makes the
/// function that turns a task into a result; so a worker can have a memory of its own. Where the
/// system gives fewer threads, those do. Never
/// holds more than a few tasks a thread. One job does everything in the calling thread. What
/// `next`, a worker or `take` throws is thrown again here once all threads have ended.
template <typename Task, typename Result>
class Ordered {
 public:
  using Worker = std::function<Result(Task)>;

  struct Work {
    std::function<std::optional<Task>()> next;
    std::function<Worker()> make_worker;
    std::function<void(Result)> take;
  };

  static void run(unsigned jobs, Work work) {
    if (jobs <= 1)
      run_alone(work);
    else
      Ordered(std::move(work)).run_threads(jobs);
  }

 private:
  /// A task on its way to its result.
  struct Slot {
    std::optional<Task> task;
    std::optional<Result> result;
    std::exception_ptr failure;
    bool done = false;
  };

  explicit Ordered(Work work) : work_(std::move(work)) {}

  static void run_alone(const Work& work) {
    const Worker worker = work.make_worker();
    while (std::optional<Task> task = work.next()) work.take(worker(std::move(*task)));
  }

  /// Ends the threads whatever happens, for they refer to this object.
  class Crew {
   public:
    explicit Crew(Ordered& ordered) : ordered_(ordered) {}
    void begin(unsigned jobs) {
      for (unsigned i = 0; i < jobs; ++i) {
        try {
          threads_.emplace_back(
              [this, worker = ordered_.work_.make_worker()] { ordered_.serve(worker); });
        } catch (const std::system_error&) {
          if (threads_.empty()) throw;
          return;  // those that the system gives do the work
        }
      }
    }
    ~Crew() {
      {
        const std::lock_guard lock(ordered_.mutex_);
        ordered_.over_ = true;
      }
      ordered_.changed_.notify_all();
      for (std::thread& thread : threads_) thread.join();
    }
    Crew(const Crew&) = delete;
    Crew& operator=(const Crew&) = delete;

   private:
    Ordered& ordered_;
    std::vector<std::thread> threads_;
  };

  void run_threads(unsigned jobs) {
    Crew crew(*this);
    crew.begin(jobs);
    const std::size_t most_under_way = std::size_t{jobs} * 4;
    std::optional<Task> task = work_.next();
    while (task || !under_way_.empty()) {
      if (task && under_way_.size() < most_under_way) {
        hand_out(std::move(*task));
        task = work_.next();
      } else {
        work_.take(oldest_result());
      }
    }
  }

  void hand_out(Task task) {
    {
      const std::lock_guard lock(mutex_);
      under_way_.emplace_back().task = std::move(task);
      waiting_.push_back(&under_way_.back());
    }
    changed_.notify_all();
  }

  Result oldest_result() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [this] { return under_way_.front().done; });
    Slot slot = std::move(under_way_.front());
    under_way_.pop_front();
    if (slot.failure) std::rethrow_exception(slot.failure);
    return std::move(*slot.result);
  }

  /// A thread's life.
  void serve(const Worker& worker) {
    std::unique_lock lock(mutex_);
    for (;;) {
      changed_.wait(lock, [this] { return over_ || !waiting_.empty(); });
      if (over_) return;
      Slot& slot = *waiting_.front();
      waiting_.pop_front();
      lock.unlock();
      try {
        slot.result = worker(std::move(*slot.task));
      } catch (...) {
        slot.failure = std::current_exception();
      }
      lock.lock();
      slot.done = true;
      changed_.notify_all();
    }
  }

  Work work_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<Slot> under_way_;  ///< oldest first; a deque keeps what is pointed to in place
  std::deque<Slot*> waiting_;   ///< not begun yet
  bool over_ = false;
};

}  // namespace rtcmend

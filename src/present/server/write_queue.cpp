#include "present/server/write_queue.hpp"

#include "core/base/error.hpp"
#include "yard/record/may_write.hpp"

namespace stillheap::server {

WriteQueue::WriteQueue(const std::filesystem::path& store_file) {
  if (record::may_be_written(store_file)) store_.emplace(record::Store::open(store_file));
  writer_ = std::thread([this] { serve(); });
}

WriteQueue::~WriteQueue() {
  {
    const std::lock_guard lock(mutex_);
    closing_ = true;
  }
  come_.notify_all();
  writer_.join();
}

void WriteQueue::run(const Work& work) {
  if (!store_) {
    throw RunError("store", "lies in a folder that may only be read; nothing was stored",
                   "let the program write there, and start it again");
  }
  Job job{&work, nullptr, false};
  std::unique_lock lock(mutex_);
  if (closing_) throw RunError("store", "is being closed", "send it again");
  waiting_.push_back(&job);
  come_.notify_one();
  done_.wait(lock, [&] { return job.done; });
  if (job.failure) std::rethrow_exception(job.failure);
}

void WriteQueue::serve() {
  std::unique_lock lock(mutex_);
  while (true) {
    come_.wait(lock, [&] { return closing_ || !waiting_.empty(); });
    if (waiting_.empty()) return;
    std::deque<Job*> jobs;
    while (!waiting_.empty() && jobs.size() < most_together) {
      jobs.push_back(waiting_.front());
      waiting_.pop_front();
    }
    lock.unlock();
    run_together(jobs);
    lock.lock();
    for (Job* job : jobs) job->done = true;
    done_.notify_all();
  }
}

void WriteQueue::run_together(std::deque<Job*>& jobs) {
  try {
    record::Transaction together(*store_);
    for (Job* job : jobs) {
      try {
        record::Savepoint part(*store_);
        (*job->work)(*store_);
        part.keep();
      } catch (...) {
        job->failure = std::current_exception();
      }
    }
    together.commit();
  } catch (...) {
    // Nothing of all this is on the disk. What a work itself had to say stays.
    for (Job* job : jobs) {
      if (!job->failure) job->failure = std::current_exception();
    }
  }
}

}  // namespace stillheap::server

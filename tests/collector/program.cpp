#include "program.h"

#include <doctest/doctest.h>
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <thread>

extern char** environ;

namespace trowelbell::collector::testing {
namespace {

using Clock = std::chrono::steady_clock;
constexpr auto kMoment = std::chrono::milliseconds(5);

std::string temp_file() {
  std::string name = (std::filesystem::temp_directory_path() / "collector-output-XXXXXX").string();
  const int descriptor = mkstemp(name.data());
  REQUIRE(descriptor >= 0);
  close(descriptor);
  return name;
}

std::string read_all(const std::string& file) {
  std::ifstream stream(file);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

}  // namespace

Program::Program(const std::vector<std::string>& arguments)
    : out_file_(temp_file()), err_file_(temp_file()) {
  std::vector<char*> words;
  std::string program = TROWELBELL_COLLECTOR_BIN;
  words.push_back(program.data());
  std::vector<std::string> copies = arguments;
  for (std::string& copy : copies) words.push_back(copy.data());
  words.push_back(nullptr);
  posix_spawn_file_actions_t files;
  posix_spawn_file_actions_init(&files);
  posix_spawn_file_actions_addopen(&files, 1, out_file_.c_str(), O_WRONLY | O_TRUNC, 0600);
  posix_spawn_file_actions_addopen(&files, 2, err_file_.c_str(), O_WRONLY | O_TRUNC, 0600);
  const int result = posix_spawn(&child_, program.c_str(), &files, nullptr, words.data(), environ);
  posix_spawn_file_actions_destroy(&files);
  REQUIRE(result == 0);
}

Program::~Program() {
  if (child_ > 0) {
    kill(child_, SIGKILL);
    waitpid(child_, nullptr, 0);
  }
  unlink(out_file_.c_str());
  unlink(err_file_.c_str());
}

unsigned short Program::port() {
  const std::string words = "listening on http://127.0.0.1:";
  for (int i = 0; i < 2000; ++i) {
    const std::string text = output();
    const std::size_t place = text.find(words);
    if (place != std::string::npos && text.find('\n', place) != std::string::npos)
      return static_cast<unsigned short>(std::stoi(text.substr(place + words.size())));
    siginfo_t info{};
    if (waitid(P_PID, static_cast<id_t>(child_), &info, WEXITED | WNOHANG | WNOWAIT) == 0 &&
        info.si_pid != 0)
      break;
    std::this_thread::sleep_for(kMoment);
  }
  return 0;
}

void Program::signal(int number) const {
  kill(child_, number);
}

int Program::wait(std::chrono::milliseconds patience) {
  const auto until = Clock::now() + patience;
  int status = 0;
  while (waitpid(child_, &status, WNOHANG) == 0) {
    if (Clock::now() > until) {
      kill(child_, SIGKILL);
      waitpid(child_, nullptr, 0);
      child_ = -1;
      return -1;
    }
    std::this_thread::sleep_for(kMoment);
  }
  child_ = -1;
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

std::string Program::output() {
  return read_all(out_file_);
}
std::string Program::messages() {
  return read_all(err_file_);
}

}  // namespace trowelbell::collector::testing

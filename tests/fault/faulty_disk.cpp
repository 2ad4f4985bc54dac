#include "faulty_disk.h"

#include <algorithm>
#include <fstream>
#include <sstream>

#include "luck.h"

namespace trowelbell::fault {
namespace {

constexpr std::size_t kSector = 512;

// Ours in front, the real file right behind it.
struct File {
  sqlite3_file head;
  FaultyDisk* disk;
  std::string* name;
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

File& ours(sqlite3_file* file) {
  return *reinterpret_cast<File*>(file);
}
sqlite3_file* real(sqlite3_file* file) {
  return ours(file).real();
}

int close_file(sqlite3_file* file) {
  const int result = real(file)->pMethods->xClose(real(file));
  delete ours(file).name;
  return result;
}
int write_file(sqlite3_file* file, const void* bytes, int size, sqlite3_int64 at) {
  sqlite3_int64 before = 0;
  if (const int result = real(file)->pMethods->xFileSize(real(file), &before); result != SQLITE_OK)
    return result;
  std::string copy(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
  const int result = ours(file).disk->write(*ours(file).name, before, {at, std::move(copy), false});
  return result != SQLITE_OK ? result : real(file)->pMethods->xWrite(real(file), bytes, size, at);
}
int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
  const int result = ours(file).disk->write(*ours(file).name, size, {size, "", true});
  return result != SQLITE_OK ? result : real(file)->pMethods->xTruncate(real(file), size);
}
int sync_file(sqlite3_file* file, int) {
  return ours(file).disk->flush(*ours(file).name);  // the real disk need not wait
}

// The rest is the real file's affair.
template <auto Method>
struct Through;
template <class... Arguments, int (*sqlite3_io_methods::*Method)(sqlite3_file*, Arguments...)>
struct Through<Method> {
  static int call(sqlite3_file* file, Arguments... arguments) {
    return (real(file)->pMethods->*Method)(real(file), arguments...);
  }
};
template <auto Method>
constexpr auto through = &Through<Method>::call;

void barrier(sqlite3_file* file) {
  real(file)->pMethods->xShmBarrier(real(file));
}

const sqlite3_io_methods kMethods = {
    .iVersion = 2,
    .xClose = close_file,
    .xRead = through<&sqlite3_io_methods::xRead>,
    .xWrite = write_file,
    .xTruncate = truncate_file,
    .xSync = sync_file,
    .xFileSize = through<&sqlite3_io_methods::xFileSize>,
    .xLock = through<&sqlite3_io_methods::xLock>,
    .xUnlock = through<&sqlite3_io_methods::xUnlock>,
    .xCheckReservedLock = through<&sqlite3_io_methods::xCheckReservedLock>,
    .xFileControl = through<&sqlite3_io_methods::xFileControl>,
    .xSectorSize = through<&sqlite3_io_methods::xSectorSize>,
    .xDeviceCharacteristics = through<&sqlite3_io_methods::xDeviceCharacteristics>,
    .xShmMap = through<&sqlite3_io_methods::xShmMap>,
    .xShmLock = through<&sqlite3_io_methods::xShmLock>,
    .xShmBarrier = barrier,
    .xShmUnmap = through<&sqlite3_io_methods::xShmUnmap>,
    .xFetch = nullptr,
    .xUnfetch = nullptr};

FaultyDisk& disk_of(sqlite3_vfs* vfs) {
  return *static_cast<FaultyDisk*>(vfs->pAppData);
}
int open_file(sqlite3_vfs* vfs, sqlite3_filename name, sqlite3_file* file, int flags, int* out) {
  return disk_of(vfs).open(name, file, flags, out);
}
int delete_file(sqlite3_vfs* vfs, const char* name, int sync) {
  disk_of(vfs).forget(name);
  return disk_of(vfs).base()->xDelete(disk_of(vfs).base(), name, sync);
}

void apply(std::string& content, const FaultyDisk::Change& change) {
  const auto at = static_cast<std::size_t>(change.at);
  if (change.cut) {
    content.resize(at);
    return;
  }
  if (content.size() < at + change.bytes.size()) content.resize(at + change.bytes.size());
  std::ranges::copy(change.bytes, content.begin() + change.at);
}

// Lost, whole, or some of its sectors.
void apply_some(std::string& content, const FaultyDisk::Change& change, Luck& luck) {
  const std::int64_t fate = luck.below(3);
  if (fate == 0) return;
  if (fate == 1 || change.cut) return apply(content, change);
  for (std::size_t at = 0; at < change.bytes.size(); at += kSector)
    if (luck.percent(50))
      apply(content,
            {change.at + static_cast<sqlite3_int64>(at), change.bytes.substr(at, kSector), false});
}

std::string read_all(const std::string& name) {
  std::ostringstream bytes;
  bytes << std::ifstream(name, std::ios::binary).rdbuf();
  return bytes.str();
}

}  // namespace

FaultyDisk::FaultyDisk() : base_(sqlite3_vfs_find(nullptr)), own_(*base_) {
  own_.szOsFile = static_cast<int>(sizeof(File)) + base_->szOsFile;
  own_.zName = "faulty";
  own_.pAppData = this;
  own_.pNext = nullptr;
  own_.xOpen = open_file;
  own_.xDelete = delete_file;
  sqlite3_vfs_register(&own_, 1);
}

FaultyDisk::~FaultyDisk() {
  sqlite3_vfs_unregister(&own_);
  sqlite3_vfs_register(base_, 1);
}

void FaultyDisk::set(Trouble trouble) {
  const std::lock_guard lock(mutex_);
  trouble_ = trouble;
}

int FaultyDisk::open(sqlite3_filename name, sqlite3_file* file, int flags, int* flags_out) {
  File& opened = ours(file);
  opened.head.pMethods = nullptr;
  opened.disk = this;
  const int result = base_->xOpen(base_, name, opened.real(), flags, flags_out);
  if (result != SQLITE_OK) return result;
  opened.name = new std::string(name == nullptr ? "" : name);  // a file without one is temporary
  opened.head.pMethods = &kMethods;
  const std::lock_guard lock(mutex_);
  if (name != nullptr && !contents_.contains(name)) contents_[name] = {read_all(name), {}};
  return SQLITE_OK;
}

void FaultyDisk::forget(const char* name) {
  const std::lock_guard lock(mutex_);
  contents_.erase(name);
}

void FaultyDisk::forget_folder(const std::filesystem::path& folder) {
  const std::lock_guard lock(mutex_);
  std::erase_if(contents_, [&](const auto& each) {
    return std::filesystem::path(each.first).parent_path() == folder;
  });
}

int FaultyDisk::write(const std::string& name, sqlite3_int64 size, Change change) {
  if (on_write) on_write();
  const std::lock_guard lock(mutex_);
  const sqlite3_int64 end = change.at + static_cast<sqlite3_int64>(change.bytes.size());
  if (trouble_ == Trouble::read_only) return SQLITE_IOERR_WRITE;
  if (trouble_ == Trouble::full && end > size) return SQLITE_FULL;
  if (!name.empty()) contents_[name].since.push_back(std::move(change));
  return SQLITE_OK;
}

int FaultyDisk::flush(const std::string& name) {
  if (on_write) on_write();
  const std::lock_guard lock(mutex_);
  if (trouble_ == Trouble::no_flush || trouble_ == Trouble::read_only) return SQLITE_IOERR_FSYNC;
  Content& content = contents_[name];
  for (const Change& change : content.since) apply(content.flushed, change);
  content.since.clear();
  return SQLITE_OK;
}

FaultyDisk::Files FaultyDisk::after_power_cut(const std::filesystem::path& folder,
                                              std::uint64_t seed) {
  Luck luck(seed);
  const std::lock_guard lock(mutex_);
  Files files;
  for (const auto& [name, content] : contents_) {
    if (std::filesystem::path(name).parent_path() != folder) continue;
    std::string left = content.flushed;
    for (const Change& change : content.since) apply_some(left, change, luck);
    files.emplace(std::filesystem::path(name).filename(), std::move(left));
  }
  return files;
}

}  // namespace trowelbell::fault

// SQLite in a few words: a connection, a prepared statement, and the rows of one run of it.
// Everything here throws DatabaseError; a connection belongs to one thread at a time.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

namespace trowelbell::collector {

struct DatabaseError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// What the file holds is not what was written: it is broken, or it is no database.
struct DamagedError : DatabaseError {
  using DatabaseError::DatabaseError;
};

class Database {
 public:
  // Opens or creates the file for the one writer: write-ahead log, every commit flushed to disk.
  static Database for_writing(const std::filesystem::path& file);
  // The file must exist; many readers work beside the writer.
  static Database for_reading(const std::filesystem::path& file);
  // An empty file that a copy goes into; it is whole by itself, without a log beside it.
  static Database for_copying(const std::filesystem::path& file);

  // One or more statements without parameters or rows.
  void execute(const char* sql);
  sqlite3* handle() const { return connection_.get(); }

 private:
  struct Close {
    void operator()(sqlite3* connection) const { sqlite3_close(connection); }
  };
  Database(const std::filesystem::path& file, int flags);
  std::unique_ptr<sqlite3, Close> connection_;
};

// The rows of one run. Gone, it ends the run: a run left open would pin the write-ahead log.
class Rows {
 public:
  explicit Rows(sqlite3_stmt* statement) : statement_(statement) {}
  Rows(Rows&& other) noexcept : statement_(std::exchange(other.statement_, nullptr)) {}
  Rows(const Rows&) = delete;
  Rows& operator=(const Rows&) = delete;
  Rows& operator=(Rows&&) = delete;
  ~Rows();

  // Moves to the next row; false after the last.
  bool next();
  std::int64_t whole(int column) const;
  // Text or blob; valid until the next row.
  std::string_view bytes(int column) const;
  std::string text(int column) const { return std::string(bytes(column)); }
  bool is_null(int column) const;

 private:
  sqlite3_stmt* statement_;
};

struct Blob {
  std::string_view bytes;
};

class Statement {
 public:
  Statement(const Database& database, std::string_view sql);

  // Binds ?1, ?2, ... and starts. Texts and blobs are not copied: they must outlive the rows.
  template <class... Values>
  Rows start(const Values&... values) {
    int place = 0;
    (bind(++place, values), ...);
    return Rows(statement_.get());
  }
  // Runs to the end, for statements without rows.
  template <class... Values>
  void run(const Values&... values) {
    Rows rows = start(values...);
    while (rows.next()) {
    }
  }

 private:
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  void bind(int place, std::int64_t value);
  void bind(int place, std::string_view text);
  void bind(int place, Blob blob);
  void check(int result) const;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

// Rolls back unless committed.
class Transaction {
 public:
  explicit Transaction(Database& database, const char* begin = "BEGIN IMMEDIATE");
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  void commit();

 private:
  Database& database_;
  bool open_ = true;
};

}  // namespace trowelbell::collector

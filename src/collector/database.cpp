#include "database.h"

namespace trowelbell::collector {
namespace {

[[noreturn]] void fail(sqlite3* connection, const std::string& doing) {
  const std::string message = doing + ": " + sqlite3_errmsg(connection);
  const int kind = sqlite3_errcode(connection);
  if (kind == SQLITE_CORRUPT || kind == SQLITE_NOTADB) throw DamagedError(message);
  throw DatabaseError(message);
}

}  // namespace

Database::Database(const std::filesystem::path& file, int flags) {
  sqlite3* connection = nullptr;
  const int result =
      sqlite3_open_v2(file.c_str(), &connection, flags | SQLITE_OPEN_NOMUTEX, nullptr);
  connection_.reset(connection);
  if (result != SQLITE_OK) fail(connection, "opening " + file.string());
  sqlite3_busy_timeout(connection, 5000);
}

Database Database::for_writing(const std::filesystem::path& file) {
  Database database(file, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE);
  // SQLite opens what it may not write for reading only, and would stay so.
  if (sqlite3_db_readonly(database.handle(), "main") != 0)
    throw DatabaseError("it may only be read");
  // FULL: a commit returns after the log is flushed, so what was answered survives a power cut.
  database.execute(
      "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;");
  return database;
}

Database Database::for_reading(const std::filesystem::path& file) {
  return {file, SQLITE_OPEN_READONLY};
}

Database Database::for_copying(const std::filesystem::path& file) {
  return {file, SQLITE_OPEN_READWRITE};
}

void Database::execute(const char* sql) {
  if (sqlite3_exec(handle(), sql, nullptr, nullptr, nullptr) != SQLITE_OK) fail(handle(), sql);
}

Rows::~Rows() {
  if (statement_ != nullptr) sqlite3_reset(statement_);
}

bool Rows::next() {
  const int result = sqlite3_step(statement_);
  if (result == SQLITE_ROW) return true;
  if (result != SQLITE_DONE) fail(sqlite3_db_handle(statement_), sqlite3_sql(statement_));
  return false;
}

std::int64_t Rows::whole(int column) const {
  return sqlite3_column_int64(statement_, column);
}

std::string_view Rows::bytes(int column) const {
  const void* data = sqlite3_column_blob(statement_, column);
  const int size = sqlite3_column_bytes(statement_, column);
  return {static_cast<const char*>(data), static_cast<std::size_t>(size)};
}

bool Rows::is_null(int column) const {
  return sqlite3_column_type(statement_, column) == SQLITE_NULL;
}

Statement::Statement(const Database& database, std::string_view sql) {
  sqlite3_stmt* statement = nullptr;
  const int result = sqlite3_prepare_v3(database.handle(), sql.data(), static_cast<int>(sql.size()),
                                        SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
  statement_.reset(statement);
  if (result != SQLITE_OK) fail(database.handle(), std::string(sql));
}

void Statement::check(int result) const {
  if (result != SQLITE_OK) fail(sqlite3_db_handle(statement_.get()), sqlite3_sql(statement_.get()));
}

void Statement::bind(int place, std::int64_t value) {
  check(sqlite3_bind_int64(statement_.get(), place, value));
}

void Statement::bind(int place, std::string_view text) {
  const char* data = text.data() != nullptr ? text.data() : "";  // a null pointer would be NULL
  check(
      sqlite3_bind_text64(statement_.get(), place, data, text.size(), SQLITE_STATIC, SQLITE_UTF8));
}

void Statement::bind(int place, Blob blob) {
  check(sqlite3_bind_blob64(statement_.get(), place, blob.bytes.data(), blob.bytes.size(),
                            SQLITE_STATIC));
}

Transaction::Transaction(Database& database, const char* begin) : database_(database) {
  database_.execute(begin);
}

Transaction::~Transaction() {
  // SQLite may have rolled back by itself (disk full); then there is nothing left to undo.
  if (open_) sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
  database_.execute("COMMIT");
  open_ = false;
}

}  // namespace trowelbell::collector

#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "measure/instant.h"
#include "register/register_place.h"

namespace blankwright {

/// Where the SQL of the two engines differs; all other SQL is the same for both.
struct Dialect {
  /// The numbers of the entries that a condition {} picks, and of those that replace them or that they replace, as
  /// `picked (number)`.
  std::string_view picked;
  /// Of those the columns {} as e, with their values as v; each found by its number, however few or many they are.
  std::string_view from_picked;
  /// Stores, of the entry ?1 in the field ?2, the figure ?3 or the text ?4.
  std::string_view insert_value;
  /// Of the table `entry_values` as v: the figure and the text, one of them NULL.
  std::string_view figure_and_text;
};

/// What a place in a row holds.
enum class CellKind { nothing, integer, real, text };

/// A statement of an engine. Columns and places of values count as in Statement.
class PreparedStatement {
 public:
  PreparedStatement() = default;
  virtual ~PreparedStatement() = default;
  PreparedStatement(const PreparedStatement&) = delete;
  PreparedStatement& operator=(const PreparedStatement&) = delete;
  virtual void reset() = 0;
  virtual void clear() = 0;  ///< forgets the values
  virtual void bind(int place, std::int64_t value) = 0;
  virtual void bind(int place, double value) = 0;
  virtual void bind(int place, std::string_view value) = 0;
  virtual void bind_null(int place) = 0;
  virtual bool step() = 0;
  virtual CellKind held(int column) const = 0;
  virtual std::int64_t number(int column) const = 0;
  virtual double real(int column) const = 0;
  virtual std::string_view bytes(int column) const = 0;  ///< until the next step
};

/// `read` neither makes nor changes anything; `write` makes a file that is absent.
enum class OpenMode { read, write };

/// `read` waits for nobody, and what it reads is of one moment.
enum class TransactionKind { read, write };

/// What a database engine does for Database, Statement and Transaction. All of it throws WorldError.
class Engine {
 public:
  Engine() = default;
  virtual ~Engine() = default;
  Engine(const Engine&) = delete;
  Engine& operator=(const Engine&) = delete;
  virtual const Dialect& dialect() const = 0;
  virtual std::unique_ptr<PreparedStatement> prepare(std::string_view sql) = 0;
  virtual void run(const std::string& sql) = 0;
  /// The one whole number that `sql` gives. Precondition: it gives at least one row.
  std::int64_t number(std::string_view sql);

  virtual bool is_in_transaction() const = 0;
  /// A writing one waits here for all others that write.
  virtual void begin(TransactionKind kind) = 0;
  virtual void commit() = 0;
  virtual void roll_back() noexcept = 0;

  /// Throws where what is there shows damage.
  virtual void check_soundness() = 0;
  /// The format of the register that is there, 0 where there is nothing. Throws where something else is there.
  virtual std::int64_t format() = 0;
  virtual void set_format(std::int64_t format) = 0;
  /// Keeps a register of an older format as it is, in the transaction that is about to change it.
  virtual void keep_old() = 0;
  /// What time it is for a register here; `machine` is what this machine's clock says.
  virtual Instant now(Instant machine) = 0;
};

}  // namespace blankwright

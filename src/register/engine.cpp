#include "register/engine.h"

#include "diagnose/failure.h"

namespace blankwright {

std::int64_t Engine::number(std::string_view sql) {
  const auto statement = prepare(sql);
  BW_EXPECT(statement->step());
  return statement->number(0);
}

}  // namespace blankwright

#include "report/cone_figures.h"

namespace placer::report {
namespace {

template <class Row>
const Row* named(const std::vector<Row>& rows, const std::string& name) {
  for (const Row& row : rows) {
    if (row.name == name) return &row;
  }
  return nullptr;
}

}  // namespace

std::vector<const firing::Cone*> other_kinds(const firing::ConeTable& table,
                                             const firing::Cone& cone) {
  std::vector<const firing::Cone*> others;
  for (const firing::Cone& other : table.cones) {
    if (other.name == cone.name && other.kind != cone.kind) others.push_back(&other);
  }
  return others;
}

const firing::ConeTable::Seger* seger_of(const firing::ConeTable& table, const std::string& name) {
  return named(table.seger, name);
}

const firing::ConeTable::Superseded* superseded_of(const firing::ConeTable& table,
                                                   const std::string& name) {
  return named(table.superseded, name);
}

}  // namespace placer::report

#include "layout/schema_node.h"

namespace rtcmend {

using nlohmann::json;

namespace {

const json anything = json::object();

}  // namespace

SchemaNode::SchemaNode(const json& root, Pointer pointer)
    : root_(&root), pointer_(std::move(pointer)) {
  // "#/definitions/field": the pointer stands behind the mark.
  while (schema().contains("$ref"))
    pointer_ = Pointer(schema()["$ref"].get_ref<const std::string&>().substr(1));
}

SchemaNode SchemaNode::within(const json& document, const Pointer& at) const {
  std::vector<std::string> steps;
  for (Pointer rest = at; !rest.empty(); rest.pop_back()) steps.push_back(rest.back());
  SchemaNode node = *this;
  const json* value = &document;
  for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
    node = value->is_object() ? node.member(*step) : node.items();
    value = &value->at(Pointer() / *step);
  }
  return node;
}

const json& SchemaNode::schema() const {
  return root_->contains(pointer_) ? root_->at(pointer_) : anything;
}

json SchemaNode::alone() const {
  json copy = schema();
  if (root_->contains("definitions")) copy["definitions"] = root_->at("definitions");
  return copy;
}

std::vector<SchemaNode> SchemaNode::choices() const {
  std::vector<SchemaNode> nodes;
  const std::size_t count = schema().value("anyOf", json::array()).size();
  for (std::size_t i = 0; i < count; ++i) nodes.emplace_back(*root_, pointer_ / "anyOf" / i);
  return nodes;
}

SchemaNode SchemaNode::member(const std::string& key) const {
  if (schema().value("properties", json::object()).contains(key))
    return SchemaNode(*root_, pointer_ / "properties" / key);
  return SchemaNode(*root_, pointer_ / "additionalProperties");
}

SchemaNode SchemaNode::items() const {
  return SchemaNode(*root_, pointer_ / "items");
}

}  // namespace rtcmend

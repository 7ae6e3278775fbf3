#include "lattice_body/strut_network.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace crushwright {
namespace {

std::size_t at(std::int32_t place) {
  return static_cast<std::size_t>(place);
}

std::vector<std::int32_t> strut_counts(const StrutBody& body) {
  std::vector<std::int32_t> counts(body.nodes.size(), 0);
  for (const BodyStrut& strut : body.struts) {
    ++counts[at(strut.from)];
    ++counts[at(strut.to)];
  }
  return counts;
}

/// Sets of nodes that hang together; the root of a set is its smallest member.
class Sets {
public:
  explicit Sets(std::size_t count) : above_(count) { std::iota(above_.begin(), above_.end(), std::int32_t{0}); }

  std::int32_t root(std::int32_t member) {
    while (above_[at(member)] != member) {
      above_[at(member)] = above_[at(above_[at(member)])];
      member = above_[at(member)];
    }
    return member;
  }

  void join(std::int32_t first, std::int32_t second) {
    first = root(first);
    second = root(second);
    above_[at(std::max(first, second))] = std::min(first, second);
  }

private:
  std::vector<std::int32_t> above_;
};

} // namespace

bool Holders::holds(NodePlace place) const {
  return (place == NodePlace::at_surface && skin) || (place == NodePlace::at_tip && tip_plate) ||
         (place == NodePlace::at_root && root_plate);
}

double length_of(const StrutBody& body, const BodyStrut& strut) {
  const auto &from = body.nodes[at(strut.from)], &to = body.nodes[at(strut.to)];
  return std::hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]);
}

double volume_of(const StrutBody& body, const BodyStrut& strut) {
  const double r = strut.from_radius, s = strut.to_radius;
  return std::numbers::pi / 3 * length_of(body, strut) * (r * r + r * s + s * s);
}

StrutTally keep_only(StrutNetwork& network, const std::vector<std::uint8_t>& kept) {
  StrutTally gone;
  StrutBody& body = network.body;
  std::vector<std::int32_t> number(body.nodes.size(), -1);
  std::size_t next = 0;
  for (std::size_t i = 0; i < body.struts.size(); ++i) {
    const BodyStrut strut = body.struts[i];
    if (!kept[i]) {
      ++gone.struts;
      gone.length += length_of(body, strut);
      gone.volume += volume_of(body, strut);
      continue;
    }
    number[at(strut.from)] = number[at(strut.to)] = 0;
    body.struts[next] = strut;
    network.origins[next] = network.origins[i];
    network.cut[next] = network.cut[i];
    ++next;
  }
  body.struts.resize(next);
  network.origins.resize(next);
  network.cut.resize(next);
  std::int32_t count = 0;
  for (std::size_t node = 0; node < number.size(); ++node) {
    if (number[node] < 0)
      continue;
    body.nodes[at(count)] = body.nodes[node];
    network.places[at(count)] = network.places[node];
    number[node] = count++;
  }
  body.nodes.resize(at(count));
  network.places.resize(at(count));
  for (BodyStrut& strut : body.struts) {
    strut.from = number[at(strut.from)];
    strut.to = number[at(strut.to)];
  }
  return gone;
}

StrutTally drop_short_pieces(StrutNetwork& network, double shortest) {
  const StrutBody& body = network.body;
  std::vector<std::uint8_t> kept(body.struts.size(), 1);
  for (std::size_t i = 0; i < body.struts.size(); ++i) {
    const BodyStrut& strut = body.struts[i];
    if (!network.cut[i] || length_of(body, strut) >= shortest * std::max(strut.from_radius, strut.to_radius))
      continue;
    kept[i] = 0;
    NodePlace &from = network.places[at(strut.from)], &to = network.places[at(strut.to)];
    if (from == NodePlace::inside)
      from = to;
    else if (to == NodePlace::inside)
      to = from;
  }
  return keep_only(network, kept);
}

StrutTally drop_fragments(StrutNetwork& network, const Holders& holders, std::int64_t& parts) {
  const StrutBody& body = network.body;
  Sets sets(body.nodes.size());
  for (const BodyStrut& strut : body.struts)
    sets.join(strut.from, strut.to);
  // Each holder is one more body that everything on it hangs together with.
  for (const NodePlace place : {NodePlace::at_surface, NodePlace::at_tip, NodePlace::at_root}) {
    std::int32_t first = -1;
    for (std::size_t node = 0; node < body.nodes.size() && holders.holds(place); ++node) {
      if (network.places[node] != place)
        continue;
      first = first < 0 ? static_cast<std::int32_t>(node) : first;
      sets.join(first, static_cast<std::int32_t>(node));
    }
  }
  std::vector<double> lengths(body.nodes.size(), 0.0);
  for (const BodyStrut& strut : body.struts)
    lengths[at(sets.root(strut.from))] += length_of(body, strut);
  parts = std::count_if(lengths.begin(), lengths.end(), [](double length) { return length > 0; });
  if (parts < 2) {
    parts = 0;
    return {};
  }
  --parts;
  const auto longest = static_cast<std::int32_t>(std::max_element(lengths.begin(), lengths.end()) - lengths.begin());
  std::vector<std::uint8_t> kept(body.struts.size());
  for (std::size_t i = 0; i < kept.size(); ++i)
    kept[i] = sets.root(body.struts[i].from) == longest ? 1 : 0;
  return keep_only(network, kept);
}

std::vector<std::int32_t> loose_ends(const StrutNetwork& network, const Holders& holders) {
  const std::vector<std::int32_t> counts = strut_counts(network.body);
  std::vector<std::int32_t> loose;
  for (std::size_t node = 0; node < counts.size(); ++node)
    if (counts[node] == 1 && !holders.holds(network.places[node]))
      loose.push_back(static_cast<std::int32_t>(node));
  return loose;
}

StrutTally drop_loose_ends(StrutNetwork& network, const Holders& holders) {
  const StrutBody& body = network.body;
  std::vector<std::int32_t> counts = strut_counts(body);
  // Of a node with one strut left the exclusive or of all its struts, less those taken, is that strut.
  std::vector<std::size_t> strut_at(body.nodes.size(), 0);
  for (std::size_t i = 0; i < body.struts.size(); ++i) {
    strut_at[at(body.struts[i].from)] ^= i;
    strut_at[at(body.struts[i].to)] ^= i;
  }
  std::vector<std::uint8_t> kept(body.struts.size(), 1);
  for (std::size_t start = 0; start < body.nodes.size(); ++start) {
    auto node = static_cast<std::int32_t>(start);
    while (counts[at(node)] == 1 && !holders.holds(network.places[at(node)])) {
      const std::size_t strut = strut_at[at(node)];
      const std::int32_t other = body.struts[strut].from == node ? body.struts[strut].to : body.struts[strut].from;
      kept[strut] = 0;
      --counts[at(node)];
      --counts[at(other)];
      strut_at[at(other)] ^= strut;
      node = other;
    }
  }
  return keep_only(network, kept);
}

} // namespace crushwright

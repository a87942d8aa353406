// A bench, recipes for it and the day of a batch, shared by the tests of the line of time.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "pipeline/pipeline.hpp"
#include "reckon/bath.hpp"
#include "reckon/timeline.hpp"

namespace waxwright {

inline constexpr std::string_view day_bench = R"(
wax dune {
  density:        0.90 g/ml
  liquid-density: 0.86 g/ml at 60 °C, 0.84 g/ml at 80 °C
  melts:          54 °C
  max-load:       10% of wax
  ceiling:        90 °C
  heat:           2.0 J/g/K
  heat-liquid:    2.2 J/g/K
  melting-heat:   150 J/g
}
oil samphire {
  density:     0.92 g/ml
  flash-point: 93 °C closed cup
}
vessel tumbler {
  fill:     100 ml
  bore:     74 mm
}
pot can {
  brimful: 1 l
  heated:  water-bath
  bath:    2 l hot
  power:   1 kW
  cools:   75 °C to 60 °C over 20 min with 1 kg in-room 20 °C
}
pot tap {
  brimful: 10 l
  heated:  melter
  power:   2 kW
}
recipe light {
  makes: 16 tumbler
  wax:   dune
  load:  4% of wax
  scent: samphire
  pot:   2 can
  steps {
    melt to 75 °C
    off heat
    add scent at 70 °C, stir 2 min
    pour at 60 °C
    leave 2 h
    second pour at 62 °C
    trim wick to 6 mm
    cure 7 days
  }
}
recipe strong like light {
  load: 8% of wax
}
recipe plain {
  makes: 4 tumbler
  wax:   dune
  pot:   2 can
  steps {
    melt to 70 °C
    pour at 60 °C
  }
}
)";

struct DayRun {
    explicit DayRun(std::string text) {
        sources.add("marsh.candle", std::string(day_bench) + std::move(text));
        workshop.emplace(open_workshop(
            std::move(sources), [](const std::string&) { return std::optional<std::string>(); }));
        work(*workshop);
    }
    const Model& model() const { return workshop->model; }
    Timeline of_batch() const {
        const std::vector<Reckoning> lines = reckonings_of(*workshop, workshop->batches.front());
        return timeline_of(
            lines, gather_pot(model(), melter_block(model(), workshop->batches.front().batch)));
    }
    std::string_view name(std::size_t line) const {
        return model().name(workshop->batches.front().lines[line].job.recipe);
    }

    Sources sources;
    std::optional<Workshop> workshop;
};

/// True if somebody would have to be at two jobs at once.
inline bool hands_clash(const Timeline& time) {
    std::vector<std::pair<double, double>> busy;
    for (const Filling& filling : time.fillings) {
        if (filling.washes_from >= 0) busy.emplace_back(filling.washes_from, filling.begins);
        for (const double top_up : filling.top_ups) {
            const double begins = filling.begins + top_up;
            busy.emplace_back(begins, begins + top_up_seconds);
        }
        for (const Stage& stage : time.profiles[filling.profile].stages) {
            if (stage.attended) {
                busy.emplace_back(filling.begins + stage.begins, filling.begins + stage.ends);
            }
        }
    }
    for (const SharedStep& shared : time.shared_steps) {
        if (shared.attended && shared.known) busy.emplace_back(shared.begins, shared.ends);
    }
    for (const double begins : time.melter_top_ups)
        busy.emplace_back(begins, begins + top_up_seconds);
    std::sort(busy.begin(), busy.end());
    for (std::size_t i = 1; i < busy.size(); ++i) {
        if (busy[i].first < busy[i - 1].second - 1e-3) return true;
    }
    return false;
}

} // namespace waxwright

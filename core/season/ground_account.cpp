// A few pastures at a time, one a thread; results are taken in file order.
#include "core/season/ground_account.h"

#include "core/base/parallel.h"

#include <algorithm>
#include <thread>
#include <utility>

namespace haylane {

namespace {

constexpr std::size_t kMostAtOnce = 4;  // bounds memory

std::vector<PastureId> asked_pastures(const AccountContext& context) {
    if (!context.request.pastures.empty()) return context.request.pastures;
    std::vector<PastureId> all;
    for (std::size_t p = 0; p < context.ranch.pastures.size(); ++p) all.push_back(PastureId::at(p));
    return all;
}

std::size_t at_once(int threads) {
    const std::size_t asked = threads > 0 ? static_cast<std::size_t>(threads)
                                          : std::max(1U, std::thread::hardware_concurrency());
    return std::clamp<std::size_t>(asked, 1, kMostAtOnce);
}

}  // namespace

Error account_stopped() { return {"cancelled", "The account was stopped.", "", "Start it again."}; }

Result<GroundAccount> ground_account(const AccountContext& context, const MapSink& sink) {
    const AccountRequest& request = context.request;
    GroundAccount ground;
    ground.span = request.span;
    ground.shown = request.shown;
    ground.uncertainty = request.uncertainty;
    ground.seasons = context.seasons;
    ground.up_to = context.up_to;
    const std::vector<PastureId> asked = asked_pastures(context);
    const std::size_t batch = at_once(request.threads);
    for (std::size_t first = 0; first < asked.size(); first += batch) {
        request.progress("ground", static_cast<double>(first) / static_cast<double>(asked.size()));
        const std::size_t count = std::min(batch, asked.size() - first);
        std::vector<Result<AccountedPasture>> done(count, fail(Error{}));
        parallel_for(count, request.threads, [&](std::size_t i) {
            if (!request.progress.stopped()) done[i] = account_pasture(context, asked[first + i]);
        });
        if (request.progress.stopped()) return fail(account_stopped());
        for (Result<AccountedPasture>& one : done) {
            if (!one) return fail(one.error());
            if (auto kept = sink(one->account, one->maps); !kept) return fail(kept.error());
            ground.ledger += one->account.ledger;
            ground.all_ledger += one->account.all_ledger;
            ground.pastures.push_back(std::move(one->account));
        }
    }
    std::vector<SoilPoint> soil;
    for (const PastureAccount& pasture : ground.pastures)
        soil.insert(soil.end(), pasture.soil.begin(), pasture.soil.end());
    ground.soil_relations = soil_relations(context.ranch, soil);
    ground.advice = ground_advice(context.ranch, ground.pastures);
    return ground;
}

}  // namespace haylane

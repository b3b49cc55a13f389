#pragma once
// Owners of PROJ's handles, with the network off. One context an object, never shared by threads.

#include <memory>
#include <string>

#include <proj.h>

namespace haylane {

struct CloseContext {
    void operator()(PJ_CONTEXT* context) const { proj_context_destroy(context); }
};
struct CloseProjection {
    void operator()(PJ* projection) const { proj_destroy(projection); }
};
using ContextPtr = std::unique_ptr<PJ_CONTEXT, CloseContext>;
using ProjectionPtr = std::unique_ptr<PJ, CloseProjection>;

// A fresh context: silent, no network.
[[nodiscard]] ContextPtr make_context();
// PROJ's words for the last failure.
[[nodiscard]] std::string proj_reason(PJ_CONTEXT* context);

}  // namespace haylane

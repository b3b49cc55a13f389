#include "gis/crs/proj_session.h"

namespace haylane {

ContextPtr make_context() {
    ContextPtr context(proj_context_create());
    proj_context_set_enable_network(context.get(), 0);
    proj_log_level(context.get(), PJ_LOG_NONE);
    return context;
}

std::string proj_reason(PJ_CONTEXT* context) {
    const int number = proj_context_errno(context);
    const char* text = number == 0 ? nullptr : proj_context_errno_string(context, number);
    return text == nullptr ? "unknown to PROJ" : text;
}

}  // namespace haylane

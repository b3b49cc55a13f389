#pragma once
// What Qt itself has to say goes to stderr, except that XDG_RUNTIME_DIR is not set: papers are
// painted without a desktop session, so that folder is never used.

namespace haylane {

// Holds for the rest of the run; call before the application object is made.
void leave_out_runtime_dir_note();

}  // namespace haylane

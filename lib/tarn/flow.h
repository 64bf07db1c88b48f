/* SPDX-License-Identifier: MIT */
#ifndef TARN_FLOW_H
#define TARN_FLOW_H

/*
 * flow: everything between the bed and the pond that water runs through.
 *
 * One header a topic, included below on the way from the pump to the pond.
 *
 * How to read it
 *   - A formula takes and returns plain doubles; outside the range that its
 *     comment states, and for NaN, it returns NaN.
 *   - A thing with many numbers is a struct.  Make it with its _default(),
 *     fill it, call its _solve().  NaN means "not given"; what is not given
 *     is solved for.  Its fields, units and ranges stand in the rows of
 *     tarn_<thing>_fields; results are described in the same way, by
 *     tarn_<thing>_flow_fields.
 *   - _solve() returns TARN_EARG and notes the field at fault; it writes its
 *     result only on success.  No call allocates memory.
 *
 * Two words are kept apart in every name
 *   head       height of still water above a crest, measured upstream, some
 *              four heads back, where the surface has not begun to dip
 *   lip_depth  depth of the moving water on the crest itself; always less
 *
 * Heads are metres of water.  g = 9.80665 m/s2.  Equations, accuracy and
 * sources at more length: docs/methods/flow.md.
 */

#include "tarn/formulas/water.h"
#include "tarn/formulas/pipe.h"
#include "tarn/formulas/tables.h"
#include "tarn/formulas/pump.h"
#include "tarn/formulas/network.h"
#include "tarn/formulas/weir.h"
#include "tarn/formulas/orifice.h"
#include "tarn/formulas/channel.h"
#include "tarn/formulas/transit.h"
#include "tarn/formulas/overflow.h"
#include "tarn/formulas/hyetograph.h"
#include "tarn/formulas/routing.h"
#include "tarn/formulas/intake.h"
#include "tarn/formulas/topup.h"
#include "tarn/formulas/winter.h"

#endif

/* SPDX-License-Identifier: MIT */
#include "tarn/base/rows.h"
#include "tarn/design.h"

/* The table of levels and areas, from the rows or from the outlines. */
static void fill_table(const struct tarn_basin_wish *w, double *level_m,
		       double *area_m2)
{
	for (int i = 0; i < w->rows; i++) {
		level_m[i] = w->row[i][0];
		area_m2[i] = w->row[i][1];
	}
	for (int i = 0; w->rows == 0 && i < w->contours; i++) {
		const struct tarn_contour *c = &w->contour[i];

		level_m[i] = c->level_m;
		area_m2[i] = c->points ? tarn_polygon_area(
			&c->point[0][0], (size_t)c->points) : TARN_NAN;
	}
}

static enum tarn_status by_table(const struct tarn_basin_wish *w,
				 const struct tarn_alloc *alloc,
				 struct tarn_basin **out,
				 struct tarn_error *err)
{
	const char *name = w->rows ? "basin.table" : "basin.contours";
	size_t rows = (size_t)(w->rows ? w->rows : w->contours);
	double *level_m = tarn_resize(alloc, NULL,
				      2 * rows * sizeof *level_m);
	struct tarn_error why = { 0 };
	enum tarn_status status;

	if (!level_m)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	fill_table(w, level_m, level_m + rows);
	status = tarn_basin_table(out, alloc, level_m, level_m + rows, rows,
				  &why);
	tarn_resize(alloc, level_m, 0);
	if (status == TARN_EARG)
		tarn_fail(err, status, name, "%s", why.text);
	else if (status != TARN_OK)
		tarn_fail(err, status, NULL, "%s", why.text);
	return status;
}

static int is_given(const struct tarn_basin_wish *w)
{
	const struct tarn_shelved *s = &w->shape;

	return w->rows > 0 || w->contours > 0 || s->shelves > 0 ||
	       !isnan(s->length_m) || !isnan(s->width_m) ||
	       !isnan(s->depth_m);
}

/* A size of the shape beside a table or outlines, which go alone. */
static const char *beside(const struct tarn_shelved *s)
{
	return !isnan(s->length_m) ? "basin.length"
	     : !isnan(s->width_m) ? "basin.width"
	     : !isnan(s->depth_m) ? "basin.depth"
	     : !isnan(s->area_factor) ? "basin.area_factor"
	     : !isnan(s->metered_m3) ? "basin.metered"
	     : s->side_slope > 0 ? "basin.side_slope"
	     : s->shelves > 0 ? "basin.shelves" : NULL;
}

static enum tarn_status check_alone(const struct tarn_basin_wish *w,
				    struct tarn_error *err)
{
	const char *other = w->rows && w->contours ? "basin.contours"
						   : beside(&w->shape);

	if (!other)
		return TARN_OK;
	tn_rows_note(err, TARN_MISTAKE_CONFLICT, NULL);
	return tarn_fail(err, TARN_EARG, other, "is given beside %s: keep the "
			 "one or the other", w->rows ? "table" : "contours");
}

enum tarn_status tarn_basin_wished(const struct tarn_basin_wish *w,
				   const struct tarn_alloc *alloc,
				   struct tarn_basin **out,
				   struct tarn_error *err)
{
	if (w->rows > 0 || w->contours > 0)
		return check_alone(w, err) != TARN_OK ? TARN_EARG :
		       by_table(w, alloc, out, err);
	if (is_given(w))
		return tarn_basin_shelved(out, alloc, &w->shape, err);
	tn_rows_note(err, TARN_MISTAKE_MISSING, NULL);
	return tarn_fail(err, TARN_EARG, "basin", "is missing: give its shape "
			 "and sizes, { table = ... } or { contours = ... }");
}

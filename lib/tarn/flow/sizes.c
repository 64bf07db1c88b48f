/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

#define SIZE struct tarn_pipe_size
static const struct tarn_field size_rows[] = {
	TARN_OUT_STRING(SIZE, schedule, "schedule", "schedule"),
	TARN_OUT_STRING(SIZE, nominal, "nominal", "inches, as printed on it"),
	TARN_OUT_NUMBER(SIZE, outside_m, "outside", "m", "outside diameter"),
	TARN_OUT_NUMBER(SIZE, inside_m, "inside", "m", "inside diameter"),
};

TARN_FIELDS(tarn_pipe_size_fields, "pipe_size", size_rows);

#define INCH 0.0254

/* Nominal outside and wall, inches. */
#define WALL(schedule, nominal, outside, wall) \
	{ schedule, nominal, (outside) * INCH, \
	  ((outside) - 2 * (wall)) * INCH }
/* Outside and average inside, inches. */
#define BORE(nominal, outside, inside) \
	{ "40 pvc", nominal, (outside) * INCH, (inside) * INCH }

/* ASME B36.10 outside diameters and walls, from memory. */
static const struct tarn_pipe_size sizes[] = {
	WALL("40", "0.5", 0.840, 0.109),
	WALL("40", "0.75", 1.050, 0.113),
	WALL("40", "1", 1.315, 0.133),
	WALL("40", "1.25", 1.660, 0.140),
	WALL("40", "1.5", 1.900, 0.145),
	WALL("40", "2", 2.375, 0.154),
	WALL("40", "2.5", 2.875, 0.203),
	WALL("40", "3", 3.500, 0.216),
	WALL("40", "4", 4.500, 0.237),
	WALL("40", "6", 6.625, 0.280),
	WALL("40", "8", 8.625, 0.322),
	WALL("40", "10", 10.750, 0.365),
	WALL("40", "12", 12.750, 0.406),
	WALL("80", "0.5", 0.840, 0.147),
	WALL("80", "0.75", 1.050, 0.154),
	WALL("80", "1", 1.315, 0.179),
	WALL("80", "1.25", 1.660, 0.191),
	WALL("80", "1.5", 1.900, 0.200),
	WALL("80", "2", 2.375, 0.218),
	WALL("80", "2.5", 2.875, 0.276),
	WALL("80", "3", 3.500, 0.300),
	WALL("80", "4", 4.500, 0.337),
	WALL("80", "6", 6.625, 0.432),
	WALL("80", "8", 8.625, 0.500),
	WALL("80", "10", 10.750, 0.594),
	WALL("80", "12", 12.750, 0.688),
	/* ASTM D1785 average inside diameters, from memory. */
	BORE("1", 1.315, 1.029),
	BORE("1.25", 1.660, 1.360),
	BORE("1.5", 1.900, 1.590),
	BORE("2", 2.375, 2.047),
	BORE("3", 3.500, 3.042),
	BORE("4", 4.500, 3.998),
};

const struct tarn_pipe_size *tarn_pipe_sizes(size_t *count)
{
	*count = FLOW_COUNT(sizes);
	return sizes;
}

double tarn_pipe_inside_m(const char *schedule, const char *nominal)
{
	for (size_t i = 0; i < FLOW_COUNT(sizes); i++)
		if (strcmp(sizes[i].schedule, schedule) == 0 &&
		    strcmp(sizes[i].nominal, nominal) == 0)
			return sizes[i].inside_m;
	return TARN_NAN;
}

double tarn_pipe_sdr_inside_m(double outside_m, double sdr)
{
	if (!(outside_m > 0 && sdr > 2 && sdr < HUGE_VAL))
		return TARN_NAN;
	return outside_m * (1 - 2 / sdr);
}

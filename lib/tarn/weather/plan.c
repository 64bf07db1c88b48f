/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

#define TOTAL_DAYS_MAX 400	/* days in one rain total */
#define TOTAL_MM_MAX 5000

/*
 * Folds the scale into the unit: SI = (x + add) * multiply / divide.  A scale
 * of 0.1 divides by 10, so that 34 tenths are the same number as 3.4.
 */
static void fold_scale(struct slot *slot, double scale)
{
	double n = floor(1 / scale + 0.5);

	if (scale < 1 && scale > 0 && 1 / n == scale) {
		slot->add *= n;
		slot->divide *= n;
	} else {
		slot->add /= scale;
		slot->multiply *= scale;
	}
}

static enum tarn_csv_rule rule_of(const struct tarn_csv_column *column,
				  enum tarn_column c, int power)
{
	if (column->rule != TARN_RULE_DEFAULT)
		return column->rule;
	switch (c) {
	case TARN_TMIN:
	case TARN_RH_MIN: return TARN_RULE_MIN;
	case TARN_TMAX:
	case TARN_RH_MAX: return TARN_RULE_MAX;
	case TARN_SUNSHINE:
	case TARN_RAIN:
	case TARN_PAN:
	case TARN_REFERENCE:
	case TARN_OPEN_WATER: return TARN_RULE_SUM;
	case TARN_SOLAR: return power ? TARN_RULE_MEAN : TARN_RULE_SUM;
	default: return TARN_RULE_MEAN;
	}
}

static enum tarn_status set_unit(struct slot *slot, enum tarn_column c,
				 const struct tarn_csv_column *column,
				 struct role role, struct tarn_error *err)
{
	const struct tarn_weather_unit *unit =
		tarn_weather_unit(c, column->unit);
	double scale = isnan(column->scale) ? 1 : column->scale;
	char list[120];

	tarn_weather_unit_list(c, list, sizeof list);
	if (!column->unit[0])
		return tn_role_fail(err, TARN_EARG, role,
				    "is not known, the file does not say it: "
				    "choose one of %s", list);
	if (!unit)
		return tn_role_fail(err, TARN_EARG, role,
				    "\"%s\" does not fit: choose one of %s",
				    column->unit, list);
	if (!isfinite(scale) || scale <= 0)
		return tn_role_fail(err, TARN_EARG, role,
				    "has a scale that is not above 0");
	slot->unit = unit->name;
	slot->add = unit->add;
	slot->multiply = unit->multiply;
	slot->divide = unit->divide;
	fold_scale(slot, scale);
	slot->convert = slot->add < 0 || slot->add > 0 ||
			slot->multiply < slot->divide ||
			slot->multiply > slot->divide;
	slot->rule = rule_of(column, c, unit->power);
	return TARN_OK;
}

static enum tarn_status set_place(struct plan *plan, struct slot *slot,
				  const struct tarn_csv_place *place,
				  const struct header *h, struct role role,
				  struct tarn_error *err)
{
	if (plan->element < 0)
		return tn_place_find(h, place, role, &slot->field, err);
	slot->field = plan->value;
	if (!place->name[0] && place->index > 0)
		return tn_role_fail(err, TARN_EARG, role,
				    "must be named by its element in the "
				    "long form");
	strcpy(slot->element, place->name);
	if (!place->name[0])
		slot->field = -1;
	return TARN_OK;
}

/* Adds a slot for a column if the map has a place for it. */
static enum tarn_status add_slot(struct plan *plan, int id,
				 const struct tarn_csv_column *column,
				 const struct header *h, const char *name,
				 struct tarn_error *err)
{
	enum tarn_column c = id < TARN_COLUMNS ? (enum tarn_column)id
					       : TARN_RAIN;
	const struct tarn_column_info *info = tarn_column_info(c);
	struct role role = { "columns.", name }, unit = { "units.", name };
	struct role flag = { "flag of ", name };
	struct slot *slot = &plan->slot[plan->slots];
	enum tarn_status status;

	memset(slot, 0, sizeof *slot);
	status = set_place(plan, slot, &column->place, h, role, err);
	if (status != TARN_OK || slot->field < 0)
		return status;
	slot->id = id;
	slot->lo = info->lo;
	slot->hi = id == SLOT_TOTAL ? TOTAL_MM_MAX : info->hi;
	slot->reject = column->flag.reject;
	slot->quiet = column->flag.quiet;
	slot->flag_part = column->flag.part;
	status = set_unit(slot, c, column, unit, err);
	if (status == TARN_OK)
		status = tn_place_find(h, &column->flag.place, flag,
				       &slot->flag_field, err);
	if (status == TARN_OK)
		plan->slots++;
	return status;
}

static enum tarn_status add_total_days(struct plan *plan,
				       const struct tarn_csv_map *map,
				       const struct header *h,
				       struct tarn_error *err)
{
	struct role role = { "", "total_days" };
	struct slot *slot = &plan->slot[plan->slots];
	enum tarn_status status;

	memset(slot, 0, sizeof *slot);
	status = set_place(plan, slot, &map->total_days, h, role, err);
	if (status != TARN_OK || slot->field < 0)
		return status;
	slot->id = SLOT_TOTAL_DAYS;
	slot->lo = 1;
	slot->hi = TOTAL_DAYS_MAX;
	slot->unit = "days";
	slot->multiply = slot->divide = 1;
	slot->flag_field = -1;
	slot->reject = slot->quiet = "";
	plan->slots++;
	return TARN_OK;
}

static enum tarn_status add_slots(struct plan *plan,
				  const struct tarn_csv_map *map,
				  const struct header *h,
				  struct tarn_error *err)
{
	struct tarn_csv_column total = map->total;
	enum tarn_status status = TARN_OK;
	struct role none = { "columns", "" };

	for (int c = 0; c < TARN_COLUMNS && status == TARN_OK; c++)
		status = add_slot(plan, c, &map->column[c], h,
				  tarn_column_info((enum tarn_column)c)->name,
				  err);
	if (status == TARN_OK && plan->slots == 0)
		return tn_role_fail(err, TARN_EARG, none,
				    "are none that hold weather: map at "
				    "least one");
	if (!total.unit[0]) {	/* measured as the rain is */
		memcpy(total.unit, map->column[TARN_RAIN].unit,
		       sizeof total.unit);
		total.scale = map->column[TARN_RAIN].scale;
	}
	if (status == TARN_OK)
		status = add_slot(plan, SLOT_TOTAL, &total, h, "total", err);
	if (status == TARN_OK)
		status = add_total_days(plan, map, h, err);
	/* the slot must not point into the copy */
	for (size_t i = 0; i < plan->slots; i++)
		if (plan->slot[i].id == SLOT_TOTAL) {
			plan->slot[i].reject = map->total.flag.reject;
			plan->slot[i].quiet = map->total.flag.quiet;
		}
	return status;
}

static enum tarn_status find_all(struct plan *plan,
				 const struct tarn_csv_map *map,
				 const struct header *h,
				 struct tarn_error *err)
{
	const struct {
		const struct tarn_csv_place *place;
		const char *name;
		int *out;
	} all[] = {
		{ &map->date, "date", &plan->date },
		{ &map->year, "year", &plan->year },
		{ &map->month, "month", &plan->month },
		{ &map->day, "day", &plan->day },
		{ &map->day_of_year, "doy", &plan->day_of_year },
		{ &map->hour, "hour", &plan->hour },
		{ &map->station, "station", &plan->station },
		{ &map->element, "element", &plan->element },
		{ &map->value, "value", &plan->value },
		{ &map->name, "name", &plan->name },
		{ &map->latitude, "latitude", &plan->latitude },
		{ &map->elevation, "elevation", &plan->elevation },
	};

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
		struct role role = { "", all[i].name };
		enum tarn_status status = tn_place_find(h, all[i].place, role,
					       all[i].out, err);

		if (status != TARN_OK)
			return status;
	}
	if (plan->element >= 0 && plan->value < 0)
		return tarn_fail(err, TARN_EARG, "value", "must be given "
				 "beside element");
	return TARN_OK;
}

static enum tarn_status check_dates(const struct plan *plan,
				    const struct tarn_csv_map *map,
				    struct tarn_error *err)
{
	if (plan->date >= 0) {
		if (tn_date_format_ok(map->date_format))
			return TARN_OK;
		return tarn_fail(err, TARN_EARG, "date.format", "\"%s\" must "
				 "hold %%Y, %%m (or %%b) and %%d once each, "
				 "or %%Y and %%j", map->date_format);
	}
	if (plan->year >= 0 && (plan->day_of_year >= 0 ||
				(plan->month >= 0 && plan->day >= 0)))
		return TARN_OK;
	return tarn_fail(err, TARN_EARG, "date", "is not known: name its "
			 "column, or those of year, month and day, or of year "
			 "and day of the year");
}

static enum tarn_status check_policies(const struct plan *plan,
				       const struct tarn_csv_map *map,
				       struct tarn_error *err)
{
	if (map->hours == 0)
		return TARN_OK;
	if (map->hours < 0 || map->hours > 1440)
		return tarn_fail(err, TARN_EARG, "hours", "must be 1 to 1440 "
				 "values a day, got %d", map->hours);
	if (map->order == TARN_ORDER_SORT ||
	    map->duplicates == TARN_DUPLICATES_LAST || plan->element >= 0)
		return tarn_fail(err, TARN_EARG, "hours", "cannot go with rows "
				 "to be sorted, with duplicates = \"last\" or "
				 "with the long form");
	return TARN_OK;
}

static void set_missing(struct plan *plan, const struct tarn_csv_map *map)
{
	for (size_t i = 0; i < TARN_CSV_TOKENS_MAX; i++) {
		struct text t = tn_text(map->missing[i]);

		if (t.length == 0)
			continue;
		plan->missing[plan->tokens].text = t;
		if (tn_number(t, &plan->missing[plan->tokens].number) !=
		    NUMBER_OK)
			plan->missing[plan->tokens].number = TARN_NAN;
		plan->tokens++;
	}
}

static void need(struct plan *plan, int field)
{
	if (field >= 0 && (size_t)field >= plan->needed)
		plan->needed = (size_t)field + 1;
}

/* A file with a header must have all its columns in every row; one without
 * must have those that are read. */
static void set_needed(struct plan *plan)
{
	const int fields[] = { plan->date,	  plan->year,	 plan->month,
			       plan->day,	  plan->hour,	 plan->station,
			       plan->day_of_year, plan->element, plan->value };

	plan->needed = plan->fields;
	for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
		need(plan, fields[i]);
	for (size_t i = 0; i < plan->slots; i++) {
		need(plan, plan->slot[i].field);
		need(plan, plan->slot[i].flag_field);
	}
}

enum tarn_status tn_reading_plan(struct plan *plan,
				 const struct tarn_csv_map *map,
				 const struct header *h, struct tarn_error *err)
{
	enum tarn_status status;

	memset(plan, 0, sizeof *plan);
	plan->fields = h->count;
	status = find_all(plan, map, h, err);
	if (status == TARN_OK)
		status = check_dates(plan, map, err);
	if (status == TARN_OK)
		status = check_policies(plan, map, err);
	if (status == TARN_OK)
		status = add_slots(plan, map, h, err);
	set_missing(plan, map);
	set_needed(plan);
	return status;
}

/* quiltcut blocks [NAME]: the blocks that a job may name, or what one of them
 * takes at a finished size; and their pictures. */
#include "cli.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char help[] =
    "Usage: quiltcut blocks [OPTION]... [NAME]\n"
    "\n"
    "Lists the traditional blocks that a job may name, with their roles; or "
    "of\n"
    "one of them the pieces that it takes, with their finished sizes.\n"
    "\n"
    "  --size S         finished width, such as 9 or \"15 cm\" (default: 12 "
    "in)\n"
    "  --units U        what sizes are in: in (default), cm or mm\n"
    "  --picture FILE   draw the block, or all, to FILE: .svg, .pdf or .png\n"
    "  --json           print as JSON\n"
    "  --csv            print as comma-separated values\n"
    "  --help           this text\n"
    "\n"
    "Seam allowances are added when a job with the block is planned.\n";

#define MOST 64

typedef struct blocks_args {
    const char *size, *picture;
    qc_units units;
    bool json, csv, help;
} blocks_args;

/* Lists of texts, one behind the other. */
static void join(char *text, size_t room, const char *more)
{
    size_t at = strlen(text);

    snprintf(text + at, room - at, "%s%s", at ? ", " : "", more);
}

/* "diamond, 45 degrees" */
static void shape_text(const qc_block_group *group, char *text, size_t room)
{
    snprintf(text, room, "%s", qc_shape_name(group->shape));
    if (group->angle)
        snprintf(text, room, "%s, %d degrees", qc_shape_name(group->shape),
                 (int)(group->angle / QC_DEGREE));
}

/* What a polygon measures as it lies in the block. */
static void box_of(const qc_block_group *group, qc_length box[2])
{
    qc_point low = group->points[0], high = low;

    for (size_t i = 1; i < group->point_count; i++) {
        qc_point p = group->points[i];

        low = (qc_point){p.x < low.x ? p.x : low.x, p.y < low.y ? p.y : low.y};
        high = (qc_point){p.x > high.x ? p.x : high.x,
                          p.y > high.y ? p.y : high.y};
    }
    box[0] = high.x - low.x;
    box[1] = high.y - low.y;
}

/* The sizes of a group, "4 1/2 x 3"; of a polygon "within 4 x 8". */
static void size_text(const qc_block_group *group, qc_units units, char *text,
                      size_t room)
{
    *text = '\0';
    if (group->point_count) {
        char across[64], up[64];
        qc_length box[2];

        box_of(group, box);
        qc_length_format(box[0], units, across, sizeof across);
        qc_length_format(box[1], units, up, sizeof up);
        snprintf(text, room, "within %s x %s", across, up);
    }
    for (int i = 0; i < 3 && group->size[i]; i++) {
        char one[64];
        size_t at = strlen(text);

        qc_length_format(group->size[i], units, one, sizeof one);
        snprintf(text + at, room - at, "%s%s", i ? " x " : "", one);
    }
}

/* --- one block ------------------------------------------------------------ */

static int print_pieces(const qc_block *block, const blocks_args *args)
{
    static const column columns[] = {
        {"piece", "piece", false},      {"count", "count", true},
        {"left", "left", true},         {"right", "right", true},
        {"role", "role", false},        {"shape", "shape", false},
        {"finished", "finished", false}};
    table t = {.columns = columns, .width = sizeof columns / sizeof *columns};
    const qc_block_group *group;
    int status;

    for (size_t i = 0; (group = qc_block_group_at(block, i)); i++) {
        const char *role = qc_block_role_at(block, group->role);
        char size[256], shape[64];

        size_text(group, args->units, size, sizeof size);
        shape_text(group, shape, sizeof shape);
        put_cell(&t, group->id, group->id);
        put_count(&t, group->count);
        put_count(&t, group->left);
        put_count(&t, group->right);
        put_cell(&t, role, role);
        put_cell(&t, shape, shape);
        put_cell(&t, size, size);
    }
    status = print_table(&t, args->csv);
    end_table(&t);
    return status;
}

static void list_methods(const qc_block_unit *unit, char *text, size_t room)
{
    *text = '\0';
    for (int i = 0; i < QC_METHOD_COUNT; i++)
        if (unit->methods >> i & 1)
            join(text, room, qc_method_name((qc_method)i));
}

/* What may be made together: nothing of a block without any. */
static int print_units(const qc_block *block)
{
    static const column columns[] = {{"unit", "unit", false},
                                     {"count", "in each", true},
                                     {"methods", "methods", false}};
    table t = {.columns = columns, .width = sizeof columns / sizeof *columns};
    const qc_block_unit *unit;
    int status = CLI_DONE;

    for (size_t i = 0; (unit = qc_block_unit_at(block, i)); i++) {
        char methods[256];

        list_methods(unit, methods, sizeof methods);
        put_cell(&t, unit->id, unit->id);
        put_count(&t, unit->count);
        put_cell(&t, methods, methods);
    }
    if (t.count)
        status = print_text("\nUnits that a method can make, instead of patch "
                            "by patch:\n");
    if (t.count && !status)
        status = print_table(&t, false);
    end_table(&t);
    return status;
}

static int print_block(const qc_block *block, const blocks_args *args)
{
    const qc_block_summary *info = qc_block_describe(block);
    char width[64], height[64], line[512];
    int status = CLI_DONE;

    qc_length_format(info->width, args->units, width, sizeof width);
    qc_length_format(info->height, args->units, height, sizeof height);
    snprintf(line, sizeof line, "%s, %s x %s %s finished: %zu patches\n",
             info->name, width, height, unit_names[args->units],
             info->patch_count);
    if (!args->csv)
        status = print_text(line);
    if (!status)
        status = print_pieces(block, args);
    return status || args->csv ? status : print_units(block);
}

/* Lengths; of a polygon corners. */
static void list_sizes(const qc_block_group *group, qc_units units, char *text,
                       size_t room)
{
    char one[80];

    *text = '\0';
    for (int k = 0; k < 3 && group->size[k]; k++) {
        snprintf(one, sizeof one, "%.10g",
                 qc_length_value(group->size[k], units));
        join(text, room, one);
    }
    for (size_t k = 0; k < group->point_count; k++) {
        snprintf(one, sizeof one, "[%.10g, %.10g]",
                 qc_length_value(group->points[k].x, units),
                 qc_length_value(group->points[k].y, units));
        join(text, room, one);
    }
}

static int print_block_json(const qc_block *block, qc_units units)
{
    const qc_block_summary *info = qc_block_describe(block);
    const qc_block_group *group;
    const qc_block_unit *unit;
    char line[2048];
    int status;

    snprintf(line, sizeof line,
             "{\"name\": \"%s\", \"units\": \"%s\", \"width\": %.10g, "
             "\"height\": %.10g, \"patches\": %zu, \"pieces\": [",
             info->name, unit_names[units], qc_length_value(info->width, units),
             qc_length_value(info->height, units), info->patch_count);
    status = print_text(line);
    for (size_t i = 0; !status && (group = qc_block_group_at(block, i)); i++) {
        char sizes[1024];

        list_sizes(group, units, sizes, sizeof sizes);
        snprintf(line, sizeof line,
                 "%s\n  {\"piece\": \"%s\", \"count\": %lld, \"left\": %lld, "
                 "\"right\": %lld, \"role\": \"%s\", \"shape\": \"%s\", "
                 "\"angle\": %d, \"finished\": [%s]}",
                 i ? "," : "", group->id, (long long)group->count,
                 (long long)group->left, (long long)group->right,
                 qc_block_role_at(block, group->role),
                 qc_shape_name(group->shape), (int)(group->angle / QC_DEGREE),
                 sizes);
        status = print_text(line);
    }
    if (!status)
        status = print_text("\n], \"block_units\": [");
    for (size_t i = 0; !status && (unit = qc_block_unit_at(block, i)); i++) {
        char methods[256] = "";

        for (int k = 0; k < QC_METHOD_COUNT; k++) {
            char one[40];

            snprintf(one, sizeof one, "\"%s\"", qc_method_name((qc_method)k));
            if (unit->methods >> k & 1)
                join(methods, sizeof methods, one);
        }
        snprintf(line, sizeof line,
                 "%s\n  {\"unit\": \"%s\", \"count\": %lld, \"left\": %lld, "
                 "\"right\": %lld, \"methods\": [%s]}",
                 i ? "," : "", unit->id, (long long)unit->count,
                 (long long)unit->left, (long long)unit->right, methods);
        status = print_text(line);
    }
    return status ? status : print_text("\n]}\n");
}

/* --- all ------------------------------------------------------------------ */

static void list_roles(const qc_block *block, char *text, size_t room)
{
    const char *role;

    *text = '\0';
    for (size_t i = 0; (role = qc_block_role_at(block, i)); i++)
        join(text, room, role);
}

static int print_list(qc_block *const *blocks, size_t count, bool csv)
{
    static const column columns[] = {{"block", "block", false},
                                     {"patches", "patches", true},
                                     {"roles", "roles", false}};
    table t = {.columns = columns, .width = sizeof columns / sizeof *columns};
    int status;

    for (size_t i = 0; i < count; i++) {
        const qc_block_summary *info = qc_block_describe(blocks[i]);
        char roles[512];

        list_roles(blocks[i], roles, sizeof roles);
        put_cell(&t, info->name, info->name);
        put_count(&t, (int64_t)info->patch_count);
        put_cell(&t, roles, roles);
    }
    status = print_table(&t, csv);
    end_table(&t);
    return status;
}

static int print_list_json(qc_block *const *blocks, size_t count)
{
    int status = print_text("[");

    for (size_t i = 0; i < count && !status; i++) {
        status = print_text(i ? ",\n \"" : "\"");
        if (!status)
            status = print_text(qc_block_describe(blocks[i])->name);
        if (!status)
            status = print_text("\"");
    }
    return status ? status : print_text("]\n");
}

/* --- the command ---------------------------------------------------------- */

static int print_blocks(qc_block *const *blocks, size_t count, bool one,
                        const blocks_args *args)
{
    outputs set = {.files = NULL};
    int status = CLI_DONE;

    if (args->picture)
        status = stage_blocks((const qc_block *const *)blocks, count,
                              args->picture, &set);
    if (!status)
        status = commit_files(&set);
    end_files(&set);
    if (status)
        return status;
    if (args->json)
        return one ? print_block_json(blocks[0], args->units)
                   : print_list_json(blocks, count);
    return one ? print_block(blocks[0], args)
               : print_list(blocks, count, args->csv);
}

static int fail(const qc_error *err)
{
    char line[800];

    qc_error_format(err, NULL, line, sizeof line);
    complain("blocks: %s", line);
    return err->code == QC_STATUS_NO_MEMORY ? CLI_FAILED : CLI_USAGE;
}

static int run(const char *name, const blocks_args *args)
{
    qc_block *blocks[MOST] = {NULL};
    const qc_block_drawing *drawing;
    qc_length size = 12 * QC_INCH;
    int status = CLI_DONE;
    size_t count = 0;
    qc_error err;

    qc_error_init(&err);
    if (args->size &&
        qc_length_parse(args->size, args->units, QC_PARSE_EXACT, &size, &err)) {
        complain("--size: '%s' %s (allowed: %s)", args->size, err.problem,
                 err.allowed);
        return CLI_USAGE;
    }
    if (name && qc_block_find(name, size, &blocks[count++], &err))
        status = fail(&err);
    while (!name && !status && count < MOST &&
           (drawing = qc_block_builtin_at(count)))
        if (qc_block_create(drawing, size, &blocks[count++], &err))
            status = fail(&err);
    if (!status)
        status = print_blocks(blocks, count, name != NULL, args);
    for (size_t i = 0; i < count; i++)
        qc_block_destroy(blocks[i]);
    return status;
}

int cmd_blocks(int argc, char **argv)
{
    blocks_args args = {.size = NULL};
    const cli_option options[] = {
        {.name = "size", .text = &args.size},
        {.name = "units", .read = read_units, .out = &args.units},
        {.name = "picture", .text = &args.picture},
        {.name = "json", .flag = &args.json},
        {.name = "csv", .flag = &args.csv},
        {.name = "help", .flag = &args.help}};
    const char *name = NULL;
    int status = READ_OPTIONS(argc, argv, options);

    if (status != CLI_DONE)
        return status;
    if (args.help)
        return print_text(help);
    status = refuse_two_forms("blocks", args.json, args.csv);
    if (!status && optind < argc)
        status = read_operand(argc, argv, "block", &name);
    return status ? status : run(name, &args);
}

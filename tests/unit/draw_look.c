/* Finding one's way on a sheet. */
#include "draw_look.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>
#include <string.h>

void look_lay(const qc_plan *plan, qci_scene *scene)
{
    assert_true(qci_scene_begin(scene));
    if (qc_plan_set_count(plan))
        assert_true(qci_sets_lay(plan, 0, scene));
    else
        assert_true(qci_sheet_lay(plan, 0, scene));
}

qc_status look_draw(const qc_plan *plan, qc_draw_format format,
                    qc_write_fn write, void *user, qc_error *err)
{
    return qc_plan_set_count(plan)
               ? qc_plan_draw_set(plan, 0, format, write, user, err)
               : qc_plan_draw(plan, 0, format, write, user, err);
}

bool look_inside(const qci_mark *m, double x, double y, double w, double h)
{
    const double slack = 0.01;

    return m->x >= x - slack && m->y >= y - slack &&
           m->x + m->w <= x + w + slack && m->y + m->h <= y + h + slack;
}

const qci_mark *look_find_box(const qci_scene *scene, qci_role role)
{
    for (size_t i = 0; i < scene->marks.count; i++)
        if (scene->marks.at[i].kind == QCI_MARK_BOX &&
            scene->marks.at[i].role == role)
            return &scene->marks.at[i];
    return NULL;
}

const qci_mark *look_lowest_box(const qci_scene *scene, qci_role role)
{
    const qci_mark *lowest = NULL;

    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *m = &scene->marks.at[i];

        if (m->kind == QCI_MARK_BOX && m->role == role &&
            (!lowest || m->y > lowest->y))
            lowest = m;
    }
    return lowest;
}

bool look_says(const qci_scene *scene, const char *words)
{
    for (size_t i = 0; i < scene->marks.count; i++)
        if (scene->marks.at[i].kind == QCI_MARK_TEXT &&
            strstr(scene->marks.at[i].text, words))
            return true;
    return false;
}

/* Steps that cut cloth which does not give what they ask for, and strips or
 * sets that no step cuts. */
#include "check/result.h"

#include <inttypes.h>

#include "job/check.h"

void qci_check_say_strips(qci_text *words, const qci_checker *c, uint32_t name,
                          int64_t count)
{
    const qci_instruction *origin = &c->of->steps[c->of->names[name].origin];

    switch (c->of->names[name].kind) {
    case QCI_NAMED_STRIPS:
        qci_check_say_count(words, count, "strip");
        qci_text_printf(words, " %s wide",
                        qci_show(origin->size, c->of->job->units).text);
        break;
    case QCI_NAMED_SECTIONS:
        qci_check_say_count(words, count, "section");
        break;
    case QCI_NAMED_SETS:
        qci_check_say_count(words, count, "set");
    }
}

/* The name of whole strips that this one is cut from, or it itself. */
static uint32_t strips_of(const qc_instructions *of, uint32_t name)
{
    while (of->names[name].kind != QCI_NAMED_STRIPS)
        name = of->steps[of->names[name].origin].from;
    return name;
}

static void say_remedy(qci_text *words, const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_done *done = &c->with_added->done[index];
    uint32_t strips = strips_of(c->of, step->from);

    if (done->hopeless) {
        qci_text_printf(words, "; no such cloth is large enough for one");
        return;
    }
    qci_text_printf(words, "; right would be ");
    qci_check_say_strips(words, c, strips,
                         c->as_written->heaps[strips].cloths + done->added);
}

/* "30 pieces B at 4 1/2 in from " */
static void say_asked(qci_text *words, const qci_checker *c,
                      const qci_instruction *step, int64_t asked)
{
    bool piece = step->piece != QC_NONE;
    bool whole = qci_is_whole(step->kind);

    qci_check_say_count(words, asked,
                        step->kind == QC_INSTRUCTION_DIAGONAL ? "square"
                        : piece && !whole                     ? "piece"
                                                              : "section");
    if (piece)
        qci_text_printf(words, " %s%s", whole ? "for piece " : "",
                        c->of->job->pieces[step->piece].id);
    if (step->size)
        qci_text_printf(words, " at %s",
                        qci_show(step->size, c->of->job->units).text);
    qci_text_printf(words, " from ");
}

static qc_status find_short(const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_done *done = &c->as_written->done[index];
    const qc_job *job = c->of->job;
    qci_text words = {0};

    if (done->got >= done->asked || step->fabric == QC_NONE)
        return QC_STATUS_OK;
    say_asked(&words, c, step, done->asked);
    qci_check_say_count(&words, c->as_written->heaps[step->from].cloths,
                        c->of->names[step->from].kind == QCI_NAMED_STRIPS
                            ? "strip"
                            : "section");
    qci_text_printf(
        &words,
        " (%s): %" PRId64 " come out at %s usable width, "
        "%" PRId64 " short",
        c->of->names[step->from].name, done->got,
        qci_show(qci_run_width(c->as_written, step->fabric), job->units).text,
        done->asked - done->got);
    say_remedy(&words, c, index);
    return qci_checker_add(c,
                           (qc_finding){.kind = QC_FINDING_SHORT_STEP,
                                        .count = done->asked - done->got},
                           index, step->fabric, step->piece, &words);
}

/* Whole strips, or sets, that lie about in the end, named at the step that cut
 * them. */
static qc_status find_untouched(const qci_checker *c, uint32_t name)
{
    const qci_named *named = &c->of->names[name];
    int64_t count = qci_run_untouched(c->as_written, name);
    int64_t cloths = c->as_written->heaps[name].cloths;
    qci_text words = {0};

    if (named->kind == QCI_NAMED_SECTIONS || !count)
        return QC_STATUS_OK;
    qci_text_printf(&words, "of ");
    qci_check_say_strips(&words, c, name, cloths);
    qci_text_printf(&words, " (%s), %" PRId64 " %s not cut by any step",
                    named->name, count, count == 1 ? "is" : "are");
    if (count < cloths)
        qci_text_printf(&words, ": %" PRId64 " would do", cloths - count);
    return qci_checker_add(
        c, (qc_finding){.kind = QC_FINDING_OVER_STRIPS, .count = count},
        named->origin, named->fabric, QC_NONE, &words);
}

qc_status qci_check_steps(const qci_checker *c)
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < c->of->step_count && !status; i++)
        status = find_short(c, i);
    for (uint32_t i = 0; i < c->of->name_count && !status; i++)
        status = find_untouched(c, i);
    return status;
}

/* What the tests of the replay have in common: plans are accepted, or rejected
 * at one place for one reason; and lists of lies, each of which is one change
 * to a good plan, and where and how it is found. */
#ifndef QC_TEST_REPLAY_LIES_H
#define QC_TEST_REPLAY_LIES_H

#include "plan/plan.h"

void replay_accept(const qc_plan *plan);
void replay_reject(const qc_plan *plan, const char *name, const char *field,
                   const char *problem);

/* Fails the test unless the replay of a good plan answers, and leaves nothing
 * behind, when it runs out of memory at any of its allocations. */
void replay_without_memory(const qc_plan *plan);

/* An entry of a list of lies, X(name, change, field, problem): a function that
 * tells the lie to the plan `p` of type paper, and its line in a table. */
#define LIE_TOLD(name, change, field, problem)                                 \
    static void tell_##name(paper *p)                                          \
    {                                                                          \
        change;                                                                \
    }
#define LIE_LISTED(name, change, field, problem)                               \
    {#name, tell_##name, field, problem},

/* Tells every lie of the lists on its own; `write` writes the good plan `p`. */
#define REJECT_LIES(write, ...)                                                \
    do {                                                                       \
        static const struct lie {                                              \
            const char *name;                                                  \
            void (*tell)(paper *);                                             \
            const char *field;                                                 \
            const char *problem;                                               \
        } lies[] = {__VA_ARGS__};                                              \
        paper p;                                                               \
                                                                               \
        for (size_t i = 0; i < sizeof lies / sizeof lies[0]; i++) {            \
            write;                                                             \
            lies[i].tell(&p);                                                  \
            replay_reject(&p.plan, lies[i].name, lies[i].field,                \
                          lies[i].problem);                                    \
        }                                                                      \
    } while (0)

#endif

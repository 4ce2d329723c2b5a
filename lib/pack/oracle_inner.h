/* What the two oracles share. */
#ifndef QCI_PACK_ORACLE_INNER_H
#define QCI_PACK_ORACLE_INNER_H

#include "base/wide.h"
#include "pack/oracle.h"

/* A row that the class may hold: the least room that one of its pieces takes is
 * room / yield. */
typedef struct qci_rest {
    int32_t row;
    int32_t yield;
    int64_t room;
    int64_t worth;
} qci_rest;

/* A place where the walk has been: edge and pieces held as one number. */
typedef struct qci_seen_place {
    qci_wide key;
    int64_t width; /* left */
    uint32_t stamp;
} qci_seen_place;

/* Longest pattern that is walked; longer ones are bounded only. */
#define QCI_SEQUENCE_LIMIT 20000

/* What can lie alone in a class, listed (bunch.c). */
typedef struct qci_bunches qci_bunches;
/* What square sections can hold in a class, listed (fill.c). */
typedef struct qci_fillings qci_fillings;

struct qci_oracle {
    const qci_model *model;
    int64_t unit_x, cells_x; /* a table cell in scaled width; last cell */
    int64_t unit_y, cells_y;
    int64_t *across;    /* [position in items][cell]: what the rest can gain */
    int64_t *up;        /* stack: [lay][cell]: what a section's rest can gain */
    int64_t *section;   /* stack: [lay]: best section opened by it */
    int64_t *amortised; /* per row: most that one piece can be worth */
    int64_t *scratch;   /* cells_x + 1 */
    int32_t *queue;     /* cells_x + 1 */
    /* Lays in use, in table order. Flat: class k owns items[first[k]..] up to
     * last[k]; one table serves all classes when `shared`. */
    int32_t *items;
    int32_t *first, *last;
    bool shared;
    bool failed;      /* for want of memory */
    bool last_walked; /* last_best is of a walk: below what tables promise */
    bool seen_on;
    int32_t lean_count;
    /* Lays that lie alone, by class: class k owns alone[alone_first[k]] up to
     * alone_first[k + 1]. Leans that occur, as an index; lean 0 is the first.
     * path[a][cell] bounds what lays that lie alone can gain beside an edge of
     * lean a, where lay i takes alone_cells[a][i] cells. */
    int32_t *alone, *alone_first;
    int64_t *lean;
    int32_t *left_lean, *right_lean; /* per lay: index of its leans */
    bool *has_lean; /* class by class: may an edge in it have this lean? */
    int64_t *path;
    int64_t *alone_cells;
    qci_bunches **bunches;   /* by class; NULL: none, or too many to list */
    qci_fillings **fillings; /* by class; NULL: not listed (yet) */
    bool *tried;             /* by class: to list fillings */
    /* Stack: [lay] its line of the table, or that of a lay after it; lines of
     * lays up to `stale` do not fit the sections. */
    int64_t **line;
    /* And the class priced last, and what was found for it. */
    int32_t stale, last_class;
    int64_t last_best;
    qci_rest *rest; /* of the class in hand, most worth for room first */
    int32_t rest_count;
    int64_t room_per_width; /* height of the class where there are stacks */
    int32_t *most_yield;    /* per row: of its lays in the class; 0: none */
    /* Places seen by the walk of this stamp. The heap is the number that the
     * pieces held make up: a digit per row. */
    qci_seen_place *seen;
    int seen_bits;     /* 2 to this: slots in use */
    size_t seen_clear; /* slots that hold something, or nothing */
    uint32_t stamp;
    qci_wide *digit;
    qci_wide heap;
    int32_t *bonus_first; /* per row, row_count + 1 */
    int32_t *held;        /* per row: pieces in the pattern being walked */
    int64_t *most_held;   /* per row: no strip has room for more */
    /* The walk. */
    const qci_prices *prices;
    int32_t *walk, *best_walk;
    int32_t walk_length, best_length;
    int64_t best_value;
    int32_t nodes;
    bool capped;
    bool found; /* best_walk holds a pattern, perhaps an empty one */
};

/* Worth of `count` pieces of a row, bonuses included. */
int64_t qci_row_worth(const qci_oracle *oracle, int32_t row, int64_t count);
/* Notes the walk as the best so far. */
void qci_walk_keep(qci_oracle *oracle, int64_t value);

/* Best value of class `cls` (an upper bound when oracle->capped), with the walk
 * left in best_walk when oracle->found; what the tables promise if less. */
int64_t qci_flat_price(qci_oracle *oracle, int32_t cls);
void qci_flat_tables(qci_oracle *oracle); /* shared tables, once per pricing */
qc_status qci_flat_prepare(qci_oracle *oracle, qc_error *err);

int64_t qci_stack_price(qci_oracle *oracle, int32_t cls);
void qci_stack_tables(qci_oracle *oracle);

/* Less than any value, and safe to add values to. */
#define QCI_NEVER (INT64_MIN / 4)

/* A walk stands at lay `open` (the opener of the section in hand), with `width`
 * left beside it and `rest` left above it, or beside an edge of lean `lean`.
 * `worth` is what the pieces are worth; `promise` is that with gains shared
 * out, as the tables count. */
typedef struct qci_spot {
    int32_t open;
    int32_t lean;
    int64_t width, rest;
    int64_t worth, promise;
} qci_spot;

/* What one of a lay is worth at most. */
static inline int64_t qci_lay_worth(const qci_oracle *oracle, int32_t lay)
{
    const qci_lay *l = &oracle->model->lays[lay];

    return oracle->amortised[l->row] * l->yield;
}

static inline bool qci_lay_left(const qci_oracle *oracle, int32_t lay)
{
    int32_t row = oracle->model->lays[lay].row;

    return oracle->held[row] < oracle->prices->limit[row];
}

/* Counts a node of the walk; false when it is at its limit. */
bool qci_walk_on(qci_oracle *oracle);
/* Adds a lay to the walk and to the spot's worth; takes it off again. */
void qci_walk_put(qci_oracle *oracle, qci_spot *spot, int32_t entry);
void qci_walk_drop(qci_oracle *oracle);

/* What all that is left of the limits can be worth at most in so much room, of
 * width or of width times height where there are stacks. */
void qci_rest_prepare(qci_oracle *oracle, int32_t cls);
int64_t qci_rest_worth(const qci_oracle *oracle, int64_t room);
/* Is that more than `needed`? Sooner told than how much it is. */
bool qci_rest_beats(const qci_oracle *oracle, int64_t room, int64_t needed);
/* Can a walk with this promise, that the tables say gains so much more, come to
 * more than is known? Asks the rest only when the tables allow it. */
bool qci_walk_can(const qci_oracle *oracle, int64_t promise, int64_t table,
                  int64_t room);

/* Makes room to note places; false when memory is out. */
bool qci_seen_create(qci_oracle *oracle);
/* Must come after qci_rest_prepare(). */
void qci_seen_prepare(qci_oracle *oracle);
/* Has the walk been there with as much width? If not, notes that it has now. */
bool qci_seen(qci_oracle *oracle, const qci_spot *spot, bool alone);

/* What is listed, narrowest first; ties by where it is. */
typedef struct qci_by_width {
    int64_t width;
    int32_t at;
} qci_by_width;
int qci_by_width_compare(const void *a, const void *b);

/* All bunches of a class; *out is NULL where too many would fit. */
qc_status qci_bunches_create(const qci_model *model, int32_t cls,
                             qci_bunches **out, qc_error *err);
void qci_bunches_destroy(qci_bunches *bunches);
/* Values them at the oracle's prices. */
void qci_bunches_price(qci_bunches *bunches, const qci_oracle *oracle);
/* What those no wider than `width` are worth at most; at least 0. */
int64_t qci_bunches_worth(const qci_bunches *bunches, int64_t width);
/* Notes the walk with the bunch that is worth most beside it, if that is the
 * best so far. */
void qci_bunches_end(qci_bunches *bunches, qci_oracle *oracle,
                     const qci_spot *spot);

/* All fillings of a class; *out is NULL where too many would fit. */
qc_status qci_fillings_create(const qci_model *model, int32_t cls,
                              qci_fillings **out, qc_error *err);
void qci_fillings_destroy(qci_fillings *fillings);
/* Notes the filling that is worth most with the best bunch beside it, if that
 * is more than the best so far. */
void qci_fillings_price(const qci_fillings *fillings, qci_oracle *oracle);

/* Lays that lie alone: a path over (position, lean). */
qc_status qci_alone_prepare(qci_oracle *oracle, qc_error *err);
void qci_alone_clear(qci_oracle *oracle);
bool qci_alone_any(const qci_oracle *oracle, int32_t cls);
/* Makes ready what the two below ask. */
void qci_alone_table(qci_oracle *oracle, int32_t cls);
/* What lays that lie alone can gain in `cells` of the strip. */
int64_t qci_alone_worth(const qci_oracle *oracle, int32_t cls, int64_t cells);
/* Goes on from a spot with lays that lie alone. */
void qci_alone_walk(qci_oracle *oracle, qci_spot spot, int32_t cls);

#endif

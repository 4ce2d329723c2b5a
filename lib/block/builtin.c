/* The traditional blocks, each drawn from its geometry on the grid that it is
 * pieced on. Names and drawings are common property of long standing; common
 * practice, no source. Of a block that is made of one unit four times, the unit
 * in the lower left corner is drawn. */
#include "block/builtin.h"

static const qc_drawn_patch four_patch[] = {
    {"dark", "0,0 1,0 1,1 0,1", 2, false},
    {"light", "1,0 2,0 2,1 1,1", 2, false},
};

static const qc_drawn_patch nine_patch[] = {
    {"dark", "0,0 1,0 1,1 0,1", 4, false},
    {"light", "1,0 2,0 2,1 1,1", 4, false},
    {"dark", "1,1 2,1 2,2 1,2", 1, false},
};

static const qc_drawn_patch rail_fence[] = {
    {"first rail", "0,0 3,0 3,1 0,1", 4, false},
    {"second rail", "0,1 3,1 3,2 0,2", 4, false},
    {"third rail", "0,2 3,2 3,3 0,3", 4, false},
};

static const qc_drawn_patch puss_in_the_corner[] = {
    {"dark", "0,0 1,0 1,1 0,1", 4, false},
    {"light", "1,0 3,0 3,1 1,1", 4, false},
    {"centre", "1,1 3,1 3,3 1,3", 1, false},
};

static const qc_drawn_patch log_cabin[] = {
    {"hearth", "3,3 4,3 4,4 3,4", 1, false},
    {"light", "3,2 4,2 4,3 3,3", 1, false},
    {"light", "4,2 5,2 5,4 4,4", 1, false},
    {"dark", "3,4 5,4 5,5 3,5", 1, false},
    {"dark", "2,2 3,2 3,5 2,5", 1, false},
    {"light", "2,1 5,1 5,2 2,2", 1, false},
    {"light", "5,1 6,1 6,5 5,5", 1, false},
    {"dark", "2,5 6,5 6,6 2,6", 1, false},
    {"dark", "1,1 2,1 2,6 1,6", 1, false},
    {"light", "1,0 6,0 6,1 1,1", 1, false},
    {"light", "6,0 7,0 7,6 6,6", 1, false},
    {"dark", "1,6 7,6 7,7 1,7", 1, false},
    {"dark", "0,0 1,0 1,7 0,7", 1, false},
};

static const qc_drawn_patch courthouse_steps[] = {
    {"hearth", "3,3 4,3 4,4 3,4", 1, false},
    {"light", "3,2 4,2 4,3 3,3", 2, false},
    {"dark", "2,2 3,2 3,5 2,5", 2, false},
    {"light", "2,1 5,1 5,2 2,2", 2, false},
    {"dark", "1,1 2,1 2,6 1,6", 2, false},
    {"light", "1,0 6,0 6,1 1,1", 2, false},
    {"dark", "0,0 1,0 1,7 0,7", 2, false},
};

static const qc_drawn_patch hourglass[] = {
    {"dark", "0,0 2,0 1,1", 2, false},
    {"light", "2,0 2,2 1,1", 2, false},
};

static const qc_drawn_patch pinwheel[] = {
    {"dark", "0,0 1,0 1,1", 4, false},
    {"light", "0,0 1,1 0,1", 4, false},
};

static const qc_drawn_patch broken_dishes[] = {
    {"dark", "0,0 1,0 1,1", 2, true},
    {"light", "0,0 1,1 0,1", 2, true},
};

static const qc_drawn_patch square_in_a_square[] = {
    {"centre", "1,0 2,1 1,2 0,1", 1, false},
    {"corner", "0,0 1,0 0,1", 4, false},
};

static const qc_drawn_patch economy_patch[] = {
    {"centre", "1,1 3,1 3,3 1,3", 1, false},
    {"middle", "1,1 2,0 3,1", 4, false},
    {"corner", "0,0 2,0 0,2", 4, false},
};

static const qc_drawn_patch flying_geese[] = {
    {"goose", "0,0 2,0 1,1", 1, false},
    {"sky", "0,0 1,1 0,1", 1, true},
};

static const qc_drawn_patch dutchmans_puzzle[] = {
    {"goose", "0,0 2,0 1,1", 4, false}, {"goose", "0,1 2,1 1,2", 4, false},
    {"sky", "0,0 1,1 0,1", 4, false},   {"sky", "2,0 2,1 1,1", 4, false},
    {"sky", "0,1 1,2 0,2", 4, false},   {"sky", "2,1 2,2 1,2", 4, false},
};

static const qc_drawn_patch sawtooth_star[] = {
    {"star", "1,0 2,1 1,1", 4, true},
    {"centre", "1,1 3,1 3,3 1,3", 1, false},
    {"background", "0,0 1,0 1,1 0,1", 4, false},
    {"background", "1,0 3,0 2,1", 4, false},
};

static const qc_drawn_patch ohio_star[] = {
    {"star", "1,0 3/2,1/2 1,1", 4, false},
    {"star", "2,0 2,1 3/2,1/2", 4, false},
    {"centre", "1,1 2,1 2,2 1,2", 1, false},
    {"accent", "1,1 3/2,1/2 2,1", 4, false},
    {"background", "1,0 2,0 3/2,1/2", 4, false},
    {"background", "0,0 1,0 1,1 0,1", 4, false},
};

static const qc_drawn_patch friendship_star[] = {
    {"star", "1,0 2,1 1,1", 4, false},
    {"star", "1,1 2,1 2,2 1,2", 1, false},
    {"background", "1,0 2,0 2,1", 4, false},
    {"background", "0,0 1,0 1,1 0,1", 4, false},
};

static const qc_drawn_patch shoofly[] = {
    {"dark", "1,0 1,1 0,1", 4, false},
    {"dark", "1,1 2,1 2,2 1,2", 1, false},
    {"background", "0,0 1,0 0,1", 4, false},
    {"background", "1,0 2,0 2,1 1,1", 4, false},
};

static const qc_drawn_patch churn_dash[] = {
    {"dark", "2,0 2,2 0,2", 4, false},
    {"dark", "2,1 4,1 4,2 2,2", 4, false},
    {"background", "0,0 2,0 0,2", 4, false},
    {"background", "2,0 4,0 4,1 2,1", 4, false},
    {"background", "2,2 4,2 4,4 2,4", 1, false},
};

static const qc_drawn_patch bears_paw[] = {
    {"paw", "1,1 3,1 3,3 1,3", 4, false},
    {"claw", "2,0 2,1 1,1", 4, false},
    {"claw", "3,0 3,1 2,1", 4, false},
    {"claw", "1,1 1,2 0,2", 4, false},
    {"claw", "1,2 1,3 0,3", 4, false},
    {"sash", "3,0 4,0 4,3 3,3", 4, false},
    {"centre", "3,3 4,3 4,4 3,4", 1, false},
    {"background", "0,0 1,0 1,1 0,1", 4, false},
    {"background", "1,0 2,0 1,1", 4, false},
    {"background", "2,0 3,0 2,1", 4, false},
    {"background", "0,1 1,1 0,2", 4, false},
    {"background", "0,2 1,2 0,3", 4, false},
};

static const qc_drawn_patch jacobs_ladder[] = {
    {"chain", "0,0 1,0 1,1 0,1", 2, false},
    {"chain", "1,1 2,1 2,2 1,2", 2, false},
    {"light", "1,0 2,0 2,1 1,1", 2, false},
    {"light", "0,1 1,1 1,2 0,2", 2, false},
    {"chain", "4,0 5,0 5,1 4,1", 2, false},
    {"chain", "5,1 6,1 6,2 5,2", 2, false},
    {"light", "5,0 6,0 6,1 5,1", 2, false},
    {"light", "4,1 5,1 5,2 4,2", 2, false},
    {"chain", "2,2 3,2 3,3 2,3", 2, false},
    {"light", "3,2 4,2 4,3 3,3", 2, false},
    {"dark", "2,0 4,0 4,2", 2, false},
    {"light", "2,0 4,2 2,2", 2, false},
    {"dark", "4,2 6,2 6,4", 2, false},
    {"light", "4,2 6,4 4,4", 2, false},
};

static const qc_drawn_patch birds_in_the_air[] = {
    {"ground", "0,0 3,0 3,3", 1, false}, {"bird", "0,0 1,1 0,1", 1, false},
    {"bird", "0,1 1,2 0,2", 1, false},   {"bird", "0,2 1,3 0,3", 1, false},
    {"bird", "1,1 2,2 1,2", 1, false},   {"bird", "1,2 2,3 1,3", 1, false},
    {"bird", "2,2 3,3 2,3", 1, false},   {"air", "0,1 1,1 1,2", 1, false},
    {"air", "0,2 1,2 1,3", 1, false},    {"air", "1,2 2,2 2,3", 1, false},
};

static const qc_drawn_patch bow_tie[] = {
    {"tie", "0,0 2,0 2,2 0,2", 2, false},
    {"tie", "2,1 3,2 2,2", 2, false},
    {"background", "2,0 4,0 4,2 3,2 2,1", 2, false},
};

static const qc_drawn_patch snowball[] = {
    {"ball", "1,0 2,0 3,1 3,2 2,3 1,3 0,2 0,1", 1, false},
    {"corner", "0,0 1,0 0,1", 4, false},
};

static const qc_drawn_patch spool[] = {
    {"spool", "0,0 3,0 2,1 1,1", 2, false},
    {"thread", "1,1 2,1 2,2 1,2", 1, false},
    {"background", "3,0 3,3 2,2 2,1", 2, false},
};

static const qc_drawn_patch attic_windows[] = {
    {"window", "1,1 3,1 3,3 1,3", 1, false},
    {"sill", "0,0 3,0 3,1 1,1", 1, false},
    {"frame", "0,0 1,1 1,3 0,3", 1, false},
};

static const qc_drawn_patch storm_at_sea[] = {
    {"centre", "3,3 5,3 5,5 3,5", 1, false},
    {"middle", "3,3 4,2 5,3", 4, false},
    {"corner", "2,2 4,2 2,4", 4, false},
    {"wave", "2,1 4,0 6,1 4,2", 4, false},
    {"corner", "2,0 4,0 2,1", 4, true},
    {"corner", "2,1 4,2 2,2", 4, true},
    {"centre", "1/2,1/2 3/2,1/2 3/2,3/2 1/2,3/2", 4, false},
    {"middle", "1/2,1/2 1,0 3/2,1/2", 4, false},
    {"middle", "3/2,1/2 2,1 3/2,3/2", 4, false},
    {"middle", "3/2,3/2 1,2 1/2,3/2", 4, false},
    {"middle", "1/2,3/2 0,1 1/2,1/2", 4, false},
    {"corner", "0,0 1,0 0,1", 4, false},
    {"corner", "1,0 2,0 2,1", 4, false},
    {"corner", "2,1 2,2 1,2", 4, false},
    {"corner", "1,2 0,2 0,1", 4, false},
};

static const qc_drawn_patch kaleidoscope[] = {
    {"dark", "1,0 1+r2,0 1+1/2r2,1+1/2r2", 4, false},
    {"light", "1+r2,0 2+r2,1 1+1/2r2,1+1/2r2", 4, false},
    {"corner", "1+r2,0 2+r2,0 2+r2,1", 4, false},
};

static const qc_drawn_patch eight_pointed_star[] = {
    {"star", "1+1/2r2,1+1/2r2 2+1/2r2,1+1/2r2 2+r2,1+r2 1+r2,1+r2", 8, false},
    {"background", "1+r2,1+r2 2+r2,1+r2 2+r2,2+r2 1+r2,2+r2", 4, false},
    {"background", "2+r2,1 2+r2,1+r2 2+1/2r2,1+1/2r2", 4, false},
};

/* The arms are as those of the star above, but for their longer sides, so that
 * all of it is squares. */
static const qc_drawn_patch pieced_star[] = {
    {"dark", "2,2 3,2 3,3", 4, false},
    {"light", "2,2 3,3 2,3", 4, false},
    {"dark", "3,2 4,3 3,3", 4, false},
    {"light", "2,3 3,3 3,4", 4, false},
    {"background", "3,2 4,2 4,3", 4, false},
    {"background", "2,3 3,4 2,4", 4, false},
    {"background", "3,3 4,3 4,4 3,4", 4, false},
};

static const qc_drawn_patch lone_star[] = {
    {"ring 1", "3+3/2r2,3+3/2r2 4+3/2r2,3+3/2r2 4+2r2,3+2r2 3+2r2,3+2r2", 8,
     false},
    {"ring 2", "3+2r2,3+2r2 4+2r2,3+2r2 4+5/2r2,3+5/2r2 3+5/2r2,3+5/2r2", 8,
     false},
    {"ring 2", "4+3/2r2,3+3/2r2 5+3/2r2,3+3/2r2 5+2r2,3+2r2 4+2r2,3+2r2", 8,
     false},
    {"ring 3", "3+5/2r2,3+5/2r2 4+5/2r2,3+5/2r2 4+3r2,3+3r2 3+3r2,3+3r2", 8,
     false},
    {"ring 3", "4+2r2,3+2r2 5+2r2,3+2r2 5+5/2r2,3+5/2r2 4+5/2r2,3+5/2r2", 8,
     false},
    {"ring 3", "5+3/2r2,3+3/2r2 6+3/2r2,3+3/2r2 6+2r2,3+2r2 5+2r2,3+2r2", 8,
     false},
    {"ring 4", "4+5/2r2,3+5/2r2 5+5/2r2,3+5/2r2 5+3r2,3+3r2 4+3r2,3+3r2", 8,
     false},
    {"ring 4", "5+2r2,3+2r2 6+2r2,3+2r2 6+5/2r2,3+5/2r2 5+5/2r2,3+5/2r2", 8,
     false},
    {"ring 5", "5+5/2r2,3+5/2r2 6+5/2r2,3+5/2r2 6+3r2,3+3r2 5+3r2,3+3r2", 8,
     false},
    {"background", "3+3r2,3+3r2 6+3r2,3+3r2 6+3r2,6+3r2 3+3r2,6+3r2", 4, false},
    {"background", "6+3r2,3 6+3r2,3+3r2 6+3/2r2,3+3/2r2", 4, false},
};

static const qc_drawn_patch hexagon[] = {
    {"hexagon", "1/2,0 3/2,0 2,1/2r3 3/2,r3 1/2,r3 0,1/2r3", 1, false},
    {"background", "0,0 1/2,0 0,1/2r3", 2, true},
};

static const qc_drawn_patch six_pointed_star[] = {
    {"star", "3/2,r3 2,3/2r3 3/2,2r3 1,3/2r3", 6, false},
    {"background", "2,3/2r3 3,3/2r3 3,2r3 3/2,2r3", 2, true},
    {"background", "5/2,r3 3,1/2r3 3,3/2r3", 2, false},
};

static const qc_drawn_patch tumbling_blocks[] = {
    {"top", "1/2r3,1 r3,3/2 1/2r3,2 0,3/2", 1, false},
    {"left", "1/2r3,1 0,3/2 0,1/2 1/2r3,0", 1, false},
    {"right", "1/2r3,1 1/2r3,0 r3,1/2 r3,3/2", 1, false},
    {"background", "0,0 1/2r3,0 0,1/2", 2, true},
};

#define DRAWING(name, width, height, patches)                                  \
    {                                                                          \
        name, width, height, patches, sizeof(patches) / sizeof *(patches)      \
    }

const qc_block_drawing qci_builtins[] = {
    DRAWING("four patch", "2", NULL, four_patch),
    DRAWING("nine patch", "3", NULL, nine_patch),
    DRAWING("rail fence", "6", NULL, rail_fence),
    DRAWING("puss in the corner", "4", NULL, puss_in_the_corner),
    DRAWING("log cabin", "7", NULL, log_cabin),
    DRAWING("courthouse steps", "7", NULL, courthouse_steps),
    DRAWING("hourglass", "2", NULL, hourglass),
    DRAWING("pinwheel", "2", NULL, pinwheel),
    DRAWING("broken dishes", "2", NULL, broken_dishes),
    DRAWING("square in a square", "2", NULL, square_in_a_square),
    DRAWING("economy patch", "4", NULL, economy_patch),
    DRAWING("flying geese", "2", "1", flying_geese),
    DRAWING("dutchman's puzzle", "4", NULL, dutchmans_puzzle),
    DRAWING("sawtooth star", "4", NULL, sawtooth_star),
    DRAWING("ohio star", "3", NULL, ohio_star),
    DRAWING("friendship star", "3", NULL, friendship_star),
    DRAWING("shoofly", "3", NULL, shoofly),
    DRAWING("churn dash", "6", NULL, churn_dash),
    DRAWING("bear's paw", "7", NULL, bears_paw),
    DRAWING("jacob's ladder", "6", NULL, jacobs_ladder),
    DRAWING("birds in the air", "3", NULL, birds_in_the_air),
    DRAWING("bow tie", "4", NULL, bow_tie),
    DRAWING("snowball", "3", NULL, snowball),
    DRAWING("spool", "3", NULL, spool),
    DRAWING("attic windows", "3", NULL, attic_windows),
    DRAWING("storm at sea", "8", NULL, storm_at_sea),
    DRAWING("kaleidoscope", "2+r2", NULL, kaleidoscope),
    DRAWING("eight-pointed star", "2+r2", NULL, eight_pointed_star),
    DRAWING("pieced star", "4", NULL, pieced_star),
    DRAWING("lone star", "6+3r2", NULL, lone_star),
    DRAWING("hexagon", "2", "r3", hexagon),
    DRAWING("six-pointed star", "3", "2r3", six_pointed_star),
    DRAWING("tumbling blocks", "r3", "2", tumbling_blocks),
};
const size_t qci_builtin_count = sizeof qci_builtins / sizeof *qci_builtins;

/**
 * libquiltcut: proved minimal cutting plans for quilts cut with a rotary
 * cutter. Includes the whole core; quiltcut/draw.h is apart.
 */
#ifndef QUILTCUT_QUILTCUT_H
#define QUILTCUT_QUILTCUT_H

#include <quiltcut/batch.h>
#include <quiltcut/block.h>
#include <quiltcut/certificate.h>
#include <quiltcut/chart.h>
#include <quiltcut/check.h>
#include <quiltcut/compare.h>
#include <quiltcut/export.h>
#include <quiltcut/job.h>
#include <quiltcut/length.h>
#include <quiltcut/plan.h>
#include <quiltcut/report.h>
#include <quiltcut/solve.h>
#include <quiltcut/status.h>
#include <quiltcut/version.h>

#endif

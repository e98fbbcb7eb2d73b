import type { PublishedRow } from '../published-row.ts'

/** What holes must give back, each with where it comes from. */
export const holesRows: readonly PublishedRow[] = [
  {
    id: 'BH-01',
    quantity: 'point at measured depth, straight inclined hole',
    unit: 'm',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'MD x cos(dip) horizontal; the same hole has inclination 30 deg from vertical',
    inputs: { collar: [1000, 2000, 150], azimuth_deg: 135, dip_below_horizontal_deg: 60, MD_m: 40 },
    expected: { E: 1014.14213562, N: 1985.85786438, Z: 115.358983849 },
    tolerance: 1e-6,
  },
  {
    id: 'BH-02',
    quantity: 'same hole if dip is misread as inclination from vertical',
    unit: 'm',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: '14.6 m elevation error',
    inputs: { collar: [1000, 2000, 150], azimuth_deg: 135, inclination_from_vertical_deg: 60, MD_m: 40 },
    expected: { E: 1024.49489743, N: 1975.50510257, Z: 130 },
    tolerance: 1e-6,
  },
  {
    id: 'BH-03',
    quantity: 'minimum curvature, one course',
    unit: 'ft; rad',
    kind: 'published',
    source: 'public drilling-engineering worked example (text read)',
    note: 'recomputed: north 27.2183, east 19.4508, tvd 94.0123, dogleg 0.22605, RF 1.00428 (published RF 1.00408 is slightly low)',
    inputs: { MD: [3500, 3600], inc_deg: [15, 25], azi_deg: [20, 45] },
    expected: { north: 27.22, east: 19.45, tvd: 94.01, dogleg_rad: 0.22605, ratio_factor: 1.00408 },
    tolerance: { north: 0.005, east: 0.005, tvd: 0.005, dogleg_rad: 5e-6, ratio_factor: 0.0003 },
  },
  {
    id: 'BH-04',
    quantity: 'minimum curvature, multi-station with azimuth through north and a straight last course',
    unit: 'm',
    kind: 'reference software',
    source: 'computed; independent check by numerical integration of the great-circle interpolated tangent',
    note: 'dogleg 0 in the last course: ratio factor must be 1, not 0/0',
    inputs: { MD: [0, 30, 60, 90, 120], inc_deg: [0, 2, 5, 9, 9], azi_deg: [0, 350, 5, 12, 12] },
    expected: { north: 10.5235435367, east: 1.50993281264, tvd: 119.336542309 },
    tolerance: 1e-5,
  },
  {
    id: 'BH-05',
    quantity:
      'true vertical depth of the last station by balanced tangential and by tangential (lower angle)',
    unit: 'm',
    kind: 'reference software',
    source: 'computed',
    inputs: { MD: [0, 30, 60, 90, 120], inc_deg: [0, 2, 5, 9, 9], azi_deg: [0, 350, 5, 12, 12] },
    expected: { balanced: 119.31354108, tangential: 119.128866189 },
    tolerance: 1e-6,
  },
  {
    id: 'BH-06',
    quantity: 'deviation of a nominally vertical hole, 1 deg over 50 m',
    unit: 'm',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: '0.87 m sideways, 7.6 mm in depth: elevation barely changes but the tip is elsewhere',
    inputs: { inc_deg: 1, MD_m: 50 },
    expected: { horizontal: 0.872620321864, tvd: 49.9923847578 },
    tolerance: 1e-6,
  },
]

import type { PublishedRow } from '../published-row.ts'

/** What alignments must give back, each with where it comes from. */
export const alignmentsRows: readonly PublishedRow[] = [
  {
    id: 'AL-01',
    quantity:
      'chainage and offset to polyline (0,0)-(100,0)-(100,100), start chainage 1000, right of travel positive',
    unit: 'm',
    kind: 'reference software',
    source: 'first principles; computed in python3, re-computed independently in Node.js',
    note: 'third point lies in the outer wedge at the bend: nearest is the vertex; sign from the side',
    inputs: {
      points: [
        [40, 10],
        [90, 50],
        [110, -10],
        [60, -7.5],
      ],
    },
    expected: { chainage: [1040, 1150, 1100, 1060], offset: [-10, -10, 14.1421356237, 7.5] },
    tolerance: 1e-9,
  },
  {
    id: 'AL-02',
    quantity: 'tie at inside of bend',
    unit: 'm',
    kind: 'reference software',
    source: 'first principles; computed in python3, re-computed independently in Node.js',
    note: 'two equally near feet: a deterministic rule (lowest chainage) is needed',
    inputs: { point: [90, 10] },
    expected: { distance: 10, candidates: [1090, 1110] },
    tolerance: 1e-9,
  },
  {
    id: 'AL-03',
    quantity: 'point before start: clamped versus extrapolated',
    unit: 'm',
    kind: 'reference software',
    source: 'first principles; computed in python3, re-computed independently in Node.js',
    inputs: { point: [-5, 3] },
    expected: {
      clamped: { chainage: 1000, distance: 5.83095189485 },
      extrapolated: { chainage: 995, offset: -3 },
    },
    tolerance: 1e-9,
  },
  {
    id: 'AL-04',
    quantity: 'circular curve right, R=500, start (0,0) heading north: centreline point at 200 m',
    unit: 'm; deg',
    kind: 'reference software',
    source: 'first principles; computed in python3, re-computed independently in Node.js',
    inputs: { R_m: 500, arc_m: 200 },
    expected: { E: 39.4695029986, N: 194.709171154, heading_deg: 22.9183118052 },
    tolerance: 1e-6,
  },
  {
    id: 'AL-05',
    quantity: 'same curve: chainage and offset of (60,180)',
    unit: 'm',
    kind: 'reference software',
    source: 'first principles; computed in python3, re-computed independently in Node.js',
    inputs: { R_m: 500, point: [60, 180] },
    expected: { chainage: 194.159359086, offset_right: 24.6054270398 },
    tolerance: 1e-6,
  },
  {
    id: 'AL-06',
    quantity: 'projection of a point into a vertical section, origin (1000,2000), section azimuth 040',
    unit: 'm',
    kind: 'reference software',
    source: 'first principles; computed in python3, re-computed independently in Node.js',
    inputs: { E: 1100, N: 2050, E0: 1000, N0: 2000, azimuth_deg: 40 },
    expected: { distance: 102.580983125, offset_right: 44.4650638276 },
    tolerance: 1e-6,
  },
]

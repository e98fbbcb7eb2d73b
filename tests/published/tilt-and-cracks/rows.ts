import type { PublishedRow } from '../published-row.ts'

/** What tilt and cracks must give back, each with where it comes from. */
export const tiltAndCracksRows: readonly PublishedRow[] = [
  {
    id: 'TI-01',
    quantity: 'tilt units: 1 arcsec',
    unit: 'microrad; mm/m',
    kind: 'reference software',
    source: 'exact (radian definition)',
    inputs: { arcsec: 1 },
    expected: { microrad: 4.8481368111, mm_per_m: 0.0048481368111 },
    tolerance: 1e-9,
  },
  {
    id: 'TI-02',
    quantity: 'tilt units: 1 mm/m',
    unit: 'arcsec',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    inputs: { mm_per_m: 1 },
    expected: { arcsec_small_angle: 206.264806247, arcsec_atan: 206.264737492, arcsec_asin: 206.264840625 },
    tolerance: 1e-6,
  },
  {
    id: 'TI-03',
    quantity: '1 degree as slope over 1 m by rad, sin, tan',
    unit: 'mm/m',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    inputs: { deg: 1 },
    expected: [17.4532925199, 17.4524064373, 17.4550649282],
    tolerance: 1e-6,
  },
  {
    id: 'TI-04',
    quantity: '1/500 in mm/m, degrees, arcsec',
    unit: '',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    inputs: { slope: '1/500' },
    expected: { mm_per_m: 2, deg: 0.114591406238, arcsec: 412.529062456 },
    tolerance: 1e-6,
  },
  {
    id: 'TI-05',
    quantity: 'differential settlement from tilt beam',
    unit: 'mm (far end up +)',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'chain of beams, cumulative',
    inputs: { tilt_change_arcsec: [30, -12, 18], beam_m: [2, 2, 3] },
    expected: [0.290888211, 0.174532927, 0.436332316],
    tolerance: 1e-6,
  },
  {
    id: 'TI-06',
    quantity: 'structure temperature effect on tilt (regression slope)',
    unit: 'arcsec/degC',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'constructed',
    inputs: { T_C: [5, 10, 15, 20, 25], tilt_arcsec: [10, 6.1, 1.9, -2, -6] },
    expected: { slope: -0.802, residual_sd_n_minus_2: 0.0795822425754 },
    tolerance: 1e-6,
  },
  {
    id: 'CR-01',
    quantity: 'three-stud crack gauge: opening and shear from side lengths',
    unit: 'mm (opening +)',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'A,B on one side of the crack, C on the other; plane trigonometry',
    inputs: { AB_mm: 100, AC0: 100, BC0: 100, AC1: 101.1, BC1: 100.3 },
    expected: { opening: 0.804558924988, shear: 0.8056 },
    tolerance: 1e-6,
  },
  {
    id: 'CR-02',
    quantity: 'triaxial crack gauge resultant',
    unit: 'mm',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    inputs: { dx: 1.2, dy: -0.4, dz: 0.3 },
    expected: 1.3,
    tolerance: 1e-9,
  },
  {
    id: 'CR-03',
    quantity: 'crack gauge thermal bar correction',
    unit: 'mm',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    inputs: { L_mm: 100, alpha_per_C: 1.2e-5, dT_C: -15 },
    expected: -0.018,
    tolerance: 1e-9,
  },
]

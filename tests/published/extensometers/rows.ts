import type { PublishedRow } from '../published-row.ts'

/** What extensometers must give back, each with where it comes from. */
export const extensometersRows: readonly PublishedRow[] = [
  {
    id: 'EX-01',
    quantity: 'magnet extensometer: settlement relative to deepest (datum) magnet',
    unit: 'mm (settlement +)',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'constructed: true settlements 45/30/10/0 mm, head settles 60 mm',
    inputs: { depth0_m: [2, 5, 10, 20], depth1_m: [1.985, 4.97, 9.95, 19.94], datum_index: 3 },
    expected: [45, 30, 10, 0],
    tolerance: 1e-6,
  },
  {
    id: 'EX-03',
    quantity: 'same data, head wrongly assumed fixed',
    unit: 'mm (settlement +)',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'naive answer -15/-30/-50/-60 mm: apparent heave of settling ground',
    inputs: { depth0_m: [2, 5, 10, 20], depth1_m: [1.985, 4.97, 9.95, 19.94] },
    expected: [-15, -30, -50, -60],
    tolerance: 1e-6,
  },
  {
    id: 'EX-05',
    quantity: 'tape scale error 0.02 % (uncorrected) on datum difference of 18 m',
    unit: 'mm',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'cancels in settlement (difference of readings) except on the change',
    inputs: { L_m: 18, scale: 0.0002 },
    expected: 3.6,
    tolerance: 1e-9,
  },
  {
    id: 'EX-06',
    quantity: 'rod extensometer: anchor displacement relative to deepest anchor',
    unit: 'mm (towards collar +)',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'u_i = dg_N - dg_i; gap grows when head moves away from anchor',
    inputs: { anchor_depth_m: [3, 6, 12], gap_change_mm: [2.1, 4, 5.3] },
    expected: { head: 5.3, anchors: [3.2, 1.3, 0] },
    tolerance: 1e-9,
  },
  {
    id: 'EX-07',
    quantity: 'rod extensometer: anchor displacement with surveyed head',
    unit: 'mm (towards collar +)',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'u_i = u_head - dg_i: the deepest anchor itself moved 0.8 mm',
    inputs: { anchor_depth_m: [3, 6, 12], gap_change_mm: [2.1, 4, 5.3], head_displacement_mm: 6.1 },
    expected: [4, 2.1, 0.8],
    tolerance: 1e-9,
  },
  {
    id: 'EX-08',
    quantity: 'strain profile head-A1, A1-A2, A2-A3 (extension +)',
    unit: 'mm/m',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    inputs: { anchor_depth_m: [3, 6, 12], gap_change_mm: [2.1, 4, 5.3] },
    expected: [0.7, 0.633333333333, 0.216666666667],
    tolerance: 1e-9,
  },
  {
    id: 'EX-09',
    quantity: 'rod thermal correction',
    unit: 'mm',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'steel rod 2.4 mm; only the part of the rod that actually warms counts',
    inputs: { L_m: 20, alpha_per_C: 1.2e-5, dT_C: 10 },
    expected: 2.4,
    tolerance: 1e-9,
  },
  {
    id: 'EX-10',
    quantity: 'settlement cell: liquid height from pressure change',
    unit: 'mm (heave +)',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'cell below reservoir: pressure falls when the cell rises',
    inputs: { p0_kPa: 24.5, p1_kPa: 23.98, rho_kg_m3: 1000, g: 9.80665 },
    expected: 53.0252430749,
    tolerance: 1e-6,
  },
  {
    id: 'EX-11',
    quantity: 'settlement cell: density error from 10 to 30 C over a 3 m head',
    unit: 'mm',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js with CIPM density',
    note: '-12.2 mm apparent heave if density is kept constant and the whole column warms',
    inputs: { h_m: 3, t0_C: 10, t1_C: 30 },
    expected: -12.1653300669,
    tolerance: 0.001,
  },
  {
    id: 'EX-12',
    quantity: 'settlement cell: reservoir level drop',
    unit: 'mm apparent heave',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: 'evaporation: 1:1',
    inputs: { reservoir_drop_mm: 8 },
    expected: 8,
    tolerance: 1e-9,
  },
  {
    id: 'EX-13',
    quantity: 'settlement cell unvented: 1 kPa barometer change',
    unit: 'mm',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    note: '102 mm: barometric compensation is not optional',
    inputs: { dp_kPa: 1, rho_kg_m3: 1000 },
    expected: 101.971621298,
    tolerance: 1e-6,
  },
]

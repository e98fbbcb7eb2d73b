import type { PublishedRow } from '../published-row.ts'

/** What levelling must give back, each with where it comes from. */
export const levellingRows: readonly PublishedRow[] = [
  {
    id: 'LV-01',
    quantity: 'levelling loop: reduced levels',
    unit: 'm',
    kind: 'reference software',
    source: 'first principles; computed in python3, re-computed independently in Node.js',
    note: 'constructed; check sum(BS)-sum(FS)=+0.006',
    inputs: { RL0_m: 100, BS_m: [1.523, 1.208, 0.987, 2.104], FS_m: [0.846, 1.675, 2.21, 1.085] },
    expected: [100.677, 100.21, 98.987, 100.006],
    tolerance: 1e-9,
  },
  {
    id: 'LV-02',
    quantity: 'levelling loop: misclosure distributed equally by setups',
    unit: 'm',
    kind: 'reference software',
    source: 'first principles; computed in python3, re-computed independently in Node.js',
    note: 'with unequal legs distribute by distance',
    inputs: { RL0_m: 100, BS_m: [1.523, 1.208, 0.987, 2.104], FS_m: [0.846, 1.675, 2.21, 1.085] },
    expected: { misclosure_m: 0.006, adjusted_m: [100.6755, 100.207, 98.9825, 100] },
    tolerance: 1e-9,
  },
  {
    id: 'LV-03',
    quantity: 'allowable misclosure 12 sqrt(K) mm',
    unit: 'mm',
    kind: 'published',
    source:
      'third order, 12 mm sqrt(km) (traditional third-order levelling, stated in a public source text read; FGCC 1984 third order from memory)',
    inputs: { K_km: [0.8, 20] },
    expected: [10.733126292, 53.66563146],
    tolerance: 1e-6,
  },
  {
    id: 'LV-04',
    quantity: 'allowable misclosure 8.4 sqrt(K) mm, second order',
    unit: 'mm',
    kind: 'published',
    source:
      'US Army Engineer School EN0593 Precise Differential Leveling: second-order AE = 8.4 mm sqrt(K) (text read)',
    note: 'older US figure; FGCC 1984 uses 6 and 8',
    inputs: { K_km: 10 },
    expected: 26.5631323454,
    tolerance: 1e-6,
  },
  {
    id: 'LV-05',
    quantity: 'FGCC 1984 loop closures 4/5/6/8/12 sqrt(E) mm for 1-I,1-II,2-I,2-II,3',
    unit: 'mm',
    kind: 'from memory',
    source:
      'FGCC 1984 Standards and Specifications for Geodetic Control Networks, table of geodetic levelling',
    note: 'from memory; section closures are 3/4/6/8/12',
    inputs: { E_km: 30 },
    expected: [21.9089023002, 27.3861278753, 32.8633534503, 43.8178046004, 65.7267069006],
    tolerance: 1e-6,
  },
  {
    id: 'LV-06',
    quantity: 'the loop of LV-01 (0.8 km) against k=12 and k=4',
    unit: 'pass?',
    kind: 'reference software',
    source: 'first principles; computed in python3, re-computed independently in Node.js',
    inputs: { misclosure_mm: 6, K_km: 0.8 },
    expected: { k12: true, k4: false },
    tolerance: 0,
  },
]

import type { PublishedRow } from '../published-row.ts'

/** What slopes and convergence must give back, each with where it comes from. */
export const slopeRows: readonly PublishedRow[] = [
  {
    id: 'INV-03',
    quantity: 'time of failure from exact velocities (line through any two points)',
    unit: 'd',
    kind: 'published',
    source:
      'Fukuzono (1985); Voight (1988, 1989): dv/dt = A v^alpha; 1/v=[A(alpha-1)(tf-t)]^(1/(alpha-1)). Carla et al. (2017, open access) seen',
    inputs: {
      t: [0, 8],
      v: [2, 10],
    },
    expected: 10.0,
    tolerance: {
      abs: 1e-12,
    },
  },
  {
    id: 'INV-05',
    quantity: 'alpha=2: velocity 5 d before failure, A=0.05',
    unit: 'mm/d',
    kind: 'published',
    source:
      'Fukuzono (1985); Voight (1988, 1989): dv/dt = A v^alpha; 1/v=[A(alpha-1)(tf-t)]^(1/(alpha-1)). Carla et al. (2017, open access) seen',
    note: 'alpha=1.5: 1/v falls along a parabola and a straight line fitted early predicts failure too EARLY; alpha=3: 1/v falls along a square root and the line predicts too LATE, the unsafe side',
    inputs: {
      A: 0.05,
      alpha: 2,
      time_to_failure_d: 5,
    },
    expected: 4.0,
    tolerance: {
      abs: 1e-9,
    },
  },
  {
    id: 'INV-06',
    quantity: 'alpha=3: velocity 5 d before failure, A=0.05',
    unit: 'mm/d',
    kind: 'published',
    source:
      'Fukuzono (1985); Voight (1988, 1989): dv/dt = A v^alpha; 1/v=[A(alpha-1)(tf-t)]^(1/(alpha-1)). Carla et al. (2017, open access) seen',
    note: 'alpha=1.5: 1/v falls along a parabola and a straight line fitted early predicts failure too EARLY; alpha=3: 1/v falls along a square root and the line predicts too LATE, the unsafe side',
    inputs: {
      A: 0.05,
      alpha: 3,
      time_to_failure_d: 5,
    },
    expected: 1.41421356237,
    tolerance: {
      abs: 1e-9,
    },
  },
  {
    id: 'INV-07',
    quantity: 'daily-difference velocities, alpha=2, dt=1 d against mid time',
    unit: 'd',
    kind: 'reference software',
    source: 'R lm',
    note: 'finite differences over dt overestimate v near failure: tf is 0.04 d early even without noise',
    inputs: {
      t_d: [0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0, 6.5, 7.0, 7.5, 8.0, 8.5],
      u_mm: [
        0.0, 1.0259, 2.1072, 3.2504, 4.4629, 5.7536, 7.1335, 8.6157, 10.2165, 11.9567, 13.8629, 15.9702,
        18.3258, 20.9964, 24.0795, 27.7259, 32.1888, 37.9424,
      ],
      u_noisy_mm: [
        -0.29, 1.06, 2.24, 3.56, 4.39, 5.1, 6.99, 8.12, 10.18, 12.09, 13.95, 15.95, 18.5, 20.99, 24.08, 27.71,
        32.48, 37.99,
      ],
    },
    expected: {
      intercept: 0.499889376,
      slope: -0.05018526576,
      tf_d: 9.96087933,
    },
    tolerance: {
      rel: 1e-6,
    },
  },
  {
    id: 'INV-08',
    quantity: 'noisy readings (sd 0.3 mm), lag 2, all and t>=4',
    unit: 'd',
    kind: 'reference software',
    source: 'R lm',
    note: 'truth 10: the answer moves by 0.6 d with the window, so report a range, never one time',
    inputs: {
      t_d: [0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0, 6.5, 7.0, 7.5, 8.0, 8.5],
      u_mm: [
        0.0, 1.0259, 2.1072, 3.2504, 4.4629, 5.7536, 7.1335, 8.6157, 10.2165, 11.9567, 13.8629, 15.9702,
        18.3258, 20.9964, 24.0795, 27.7259, 32.1888, 37.9424,
      ],
      u_noisy_mm: [
        -0.29, 1.06, 2.24, 3.56, 4.39, 5.1, 6.99, 8.12, 10.18, 12.09, 13.95, 15.95, 18.5, 20.99, 24.08, 27.71,
        32.48, 37.99,
      ],
    },
    expected: {
      tf_all: 9.82094606,
      tf_from_4d: 10.39693874,
    },
    tolerance: {
      rel: 1e-6,
    },
  },
  {
    id: 'INV-09',
    quantity: 'single noisy pair must not give a negative or past tf',
    unit: 'd',
    kind: 'common practice, no published source',
    source: 'definition: slope of 1/v >= 0 -> no forecast',
    note: 'decelerating',
    inputs: {
      t: [5, 6],
      v: [3, 2],
    },
    expected: null,
    tolerance: {
      abs: 0,
    },
  },
  {
    id: 'VEL-01',
    quantity: 'velocity class limits in mm/s',
    unit: 'mm/s',
    kind: 'published',
    source: 'Cruden & Varnes (1996), Turner & Schuster TRB SR 247; IUGS WP/WLI (1995); table text seen',
    note: 'classes: extremely slow < 5e-7 < very slow < 5e-5 < slow < 5e-3 < moderate < 0.5 < rapid < 50 < very rapid < 5000 < extremely rapid',
    inputs: {},
    expected: [5e-7, 5e-5, 0.005, 0.5, 50, 5000],
    tolerance: {
      abs: 0,
    },
  },
  {
    id: 'VEL-03',
    quantity: 'classify 10 mm/yr, 50 mm/month, 25 mm/d, 5 m/h, 1 m/s',
    unit: '-',
    kind: 'published',
    source: 'Cruden & Varnes (1996), Turner & Schuster TRB SR 247; IUGS WP/WLI (1995); table text seen',
    inputs: {
      mm_per_s: [3.1688087814e-7, 1.90128526884e-5, 0.000289351851852, 1.38888888889, 1000],
    },
    expected: ['extremely slow', 'very slow', 'slow', 'rapid', 'very rapid'],
    tolerance: {
      abs: 0,
    },
  },
  {
    id: 'CVG-01',
    quantity: 'face-advance convergence at x = 2 5 10 20 40 m, X=8 m, Cinf=30 mm',
    unit: 'mm',
    kind: 'from memory',
    source:
      'Panet & Guenot (1982); Sulem, Panet & Guenot (1987): C(x,t)=Cinf {1-[X/(x+X)]^2}{1+m[1-(T/(t+T))^n]}, n=0.3',
    note: 'from memory in the form; only half is seen before 3.3 m: a late zero reading hides it',
    inputs: {
      X_m: 8,
      Cinf_mm: 30,
      x_m: [2, 5, 10, 20, 40],
    },
    expected: [10.8, 18.6390532544, 24.0740740741, 27.5510204082, 29.1666666667],
    tolerance: {
      abs: 1e-9,
    },
  },
  {
    id: 'CVG-02',
    quantity: 'share already lost when the first reading is 4 m behind the face, X=8 m',
    unit: '-',
    kind: 'from memory',
    source:
      'Panet & Guenot (1982); Sulem, Panet & Guenot (1987): C(x,t)=Cinf {1-[X/(x+X)]^2}{1+m[1-(T/(t+T))^n]}, n=0.3',
    note: '55.6 % of the face-advance part is never measured',
    inputs: {
      X_m: 8,
      x0_m: 4,
    },
    expected: 0.555555555556,
    tolerance: {
      abs: 1e-12,
    },
  },
  {
    id: 'CVG-03',
    quantity: 'with creep m=0.5 T=10 d n=0.3 at x=20 m t=5 30 d',
    unit: 'mm',
    kind: 'from memory',
    source:
      'Panet & Guenot (1982); Sulem, Panet & Guenot (1987): C(x,t)=Cinf {1-[X/(x+X)]^2}{1+m[1-(T/(t+T))^n]}, n=0.3',
    inputs: {
      X_m: 8,
      Cinf_mm: 30,
      m: 0.5,
      T_d: 10,
      n: 0.3,
      x_m: 20,
      t_d: [5, 30],
    },
    expected: [29.128764123, 32.2380832676],
    tolerance: {
      abs: 1e-9,
    },
  },
  {
    id: 'CVG-04',
    quantity: 'convergence from two target positions (3-D), and its strain',
    unit: 'mm, %',
    kind: 'published',
    source: 'definition: shortening positive',
    note: 'own numbers',
    inputs: {
      A0: [0.0, 0.0, 0.0],
      B0: [6.0, 0.2, 1.5],
      A1: [0.004, 0.0, -0.002],
      B1: [5.993, 0.2, 1.498],
    },
    expected: {
      L0_m: 6.18789140176,
      convergence_mm: 10.66540622,
      strain_percent: 0.172359298629,
    },
    tolerance: {
      abs: 1e-6,
    },
  },
]

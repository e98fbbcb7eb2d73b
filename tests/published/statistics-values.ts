/** A value from outside the project, and where it comes from. */
export interface PublishedRow {
  readonly id: string
  readonly quantity: string
  readonly kind: 'published' | 'reference software' | 'common practice, no published source' | 'from memory'
  readonly source: string
  readonly inputs: Readonly<Record<string, unknown>>
  readonly expected: unknown
  readonly tolerance: unknown
}

export const statisticsRows: readonly PublishedRow[] = [
  {
    id: 'ST-01',
    quantity: 'univariate NumAcc1',
    kind: 'published',
    source: 'NIST StRD certified values (public domain; read in a public copy of the NIST files)',
    inputs: { y: [10000001, 10000003, 10000002] },
    expected: { mean: 10000002, sd: 1, r1: -0.5 },
    tolerance: { mean: 0, sd: 1e-9, r1: 1e-9 },
  },
  {
    id: 'ST-02',
    quantity: 'univariate NumAcc4: 10000000.2 then 500 x (10000000.1, 10000000.3)',
    kind: 'published',
    source: 'NIST StRD certified values (public domain; read in a public copy of the NIST files)',
    inputs: { first: 10000000.2, pair: [10000000.1, 10000000.3], pairs: 500 },
    expected: { mean: 10000000.2, sd: 0.1, r1: -0.999 },
    tolerance: { mean: 1e-7, sd: 1e-8, r1: 1e-7 },
  },
  {
    id: 'ST-03',
    quantity: 'linear regression Norris y=b0+b1 x',
    kind: 'published',
    source:
      'NIST StRD certified values (public domain; read in a public copy of the NIST files); recomputed in 40-digit arithmetic, all digits agree',
    inputs: {
      x: [
        0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9,
        338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0,
        11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
      ],
      y: [
        0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8,
        339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9,
        10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
      ],
    },
    expected: {
      b0: -0.262323073774029,
      b1: 1.00211681802045,
      se_b0: 0.232818234301152,
      se_b1: 0.000429796848199937,
      residual_sd: 0.884796396144373,
      R2: 0.999993745883712,
    },
    tolerance: { b0: 1e-11, b1: 1e-12, se_b0: 1e-12, se_b1: 1e-14, residual_sd: 1e-12, R2: 1e-13 },
  },
  {
    id: 'ST-06',
    quantity: 'trend per day when time is epoch milliseconds',
    kind: 'reference software',
    source: 'ordinary least squares, numpy',
    inputs: {
      t0_ms: 1700000000000,
      step_ms: 86400000,
      y: [2.0, 2.6, 3.0, 3.4, 4.1, 4.5, 4.9, 5.6, 6.0, 6.4],
    },
    expected: { slope_per_day: 0.492727272727, value_at_t0: 2.03272727273 },
    tolerance: 1e-9,
  },
  {
    id: 'ST-07',
    quantity: 'Mann-Kendall with ties',
    kind: 'published',
    source:
      'EPA QA/G-9S (2006) worked example: S=22, VAR(S)=155.33, Z=1.685 (read in a public copy); R cor.test(kendall, continuity) agrees',
    inputs: { y: [10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15] },
    expected: { S: 22, varS: 155.3333333, Z: 1.68494979, p_two_sided: 0.09199825921 },
    tolerance: { S: 0, varS: 1e-6, Z: 1e-7, p_two_sided: 1e-8 },
  },
  {
    id: 'ST-08',
    quantity: 'Theil-Sen slope of the same series, t=1..11',
    kind: 'reference software',
    source: 'R 4.2.2: median of 55 pairwise slopes',
    inputs: { y: [10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15] },
    expected: 1,
    tolerance: 1e-9,
  },
  {
    id: 'ST-09',
    quantity: 'Mann-Kendall without ties, n=10, exact and normal p',
    kind: 'reference software',
    source: 'R 4.2.2 cor.test exact / own formula',
    inputs: { y: [1.2, 1.5, 1.1, 2.0, 2.3, 1.9, 2.8, 3.0, 2.6, 3.4] },
    expected: {
      S: 33,
      tau: 0.7333333333,
      varS: 125,
      Z: 2.862167011,
      p_normal: 0.004207551285,
      p_exact: 0.002212852734,
    },
    tolerance: 1e-8,
  },
  {
    id: 'ST-10',
    quantity: 'Theil-Sen on irregular times with an outlier, versus OLS',
    kind: 'reference software',
    source: 'R 4.2.2',
    inputs: { t: [0, 1, 3, 4, 8, 9, 15, 20], y: [0.0, 0.4, 1.1, 1.7, 3.2, 9.0, 6.1, 8.2] },
    expected: {
      slope: 0.412406015038,
      intercept_median_residual: -0.0302631578947,
      intercept_medians: -0.0244360902256,
      ols_slope: 0.433092485549,
      ols_intercept: 0.464306358382,
    },
    tolerance: 1e-9,
  },
  {
    id: 'ST-11',
    quantity: 'Mann-Kendall and Sen slope, annual Nile flow 1871-1970 (R datasets::Nile)',
    kind: 'reference software',
    source: 'R 4.2.2',
    inputs: {
      y: [
        1120.0, 1160.0, 963.0, 1210.0, 1160.0, 1160.0, 813.0, 1230.0, 1370.0, 1140.0, 995.0, 935.0, 1110.0,
        994.0, 1020.0, 960.0, 1180.0, 799.0, 958.0, 1140.0, 1100.0, 1210.0, 1150.0, 1250.0, 1260.0, 1220.0,
        1030.0, 1100.0, 774.0, 840.0, 874.0, 694.0, 940.0, 833.0, 701.0, 916.0, 692.0, 1020.0, 1050.0, 969.0,
        831.0, 726.0, 456.0, 824.0, 702.0, 1120.0, 1100.0, 832.0, 764.0, 821.0, 768.0, 845.0, 864.0, 862.0,
        698.0, 845.0, 744.0, 796.0, 1040.0, 759.0, 781.0, 865.0, 845.0, 944.0, 984.0, 897.0, 822.0, 1010.0,
        771.0, 676.0, 649.0, 846.0, 812.0, 742.0, 801.0, 1040.0, 860.0, 874.0, 848.0, 890.0, 744.0, 749.0,
        838.0, 1050.0, 918.0, 986.0, 797.0, 923.0, 975.0, 815.0, 1020.0, 906.0, 901.0, 1170.0, 912.0, 746.0,
        919.0, 718.0, 714.0, 740.0,
      ],
      t: '1871..1970',
    },
    expected: { S: -1387, varS: 112728.333333, Z: -4.128066523, sen_slope: -2.6 },
    tolerance: { S: 0, varS: 1e-6, Z: 1e-7, sen_slope: 1e-9 },
  },
  {
    id: 'ST-12',
    quantity: 'step detection on the same series: Pettitt test and least-squares break',
    kind: 'reference software',
    source:
      'R 4.2.2; strucchange breakpoints() gives 1898 with 95 % interval 1895-1902; known change point Cobb (1978) Biometrika',
    inputs: { as: 'ST-11' },
    expected: {
      break_after_index: 28,
      break_year: 1898,
      K: 1617,
      p_approx: 3.591022177e-7,
      mean_before: 1097.75,
      mean_after: 849.9722222,
    },
    tolerance: {
      break_after_index: 0,
      break_year: 0,
      K: 0,
      p_approx: 1e-12,
      mean_before: 1e-9,
      mean_after: 1e-6,
    },
  },
  {
    id: 'ST-16',
    quantity: 'median, MAD and scaled MAD',
    kind: 'reference software',
    source: 'R 4.2.2 mad()',
    inputs: { x: [2.1, 2.2, 1.9, 2.0, 2.3, 2.1, 7.5, 2.2, 2.0, 1.8, 2.1] },
    expected: { median: 2.1, MAD: 0.1, 'MAD_x_1.4826': 0.14826, mean: 2.563636364, sd: 1.643333641 },
    tolerance: 1e-8,
  },
  {
    id: 'ST-18',
    quantity: 'Hampel with zero MAD (constant neighbours)',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    inputs: { x: [5, 5, 5, 5, 5.01, 5, 5, 5, 5], k: 2, n_sigma: 3 },
    expected: { flagged_index_0based: [4] },
    tolerance: 0,
  },
  {
    id: 'ST-19',
    quantity: 'sample quantile type 6 (Hyndman & Fan) of 1..10',
    kind: 'reference software',
    source: 'R 4.2.2 quantile(type)',
    inputs: { x: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10], p: [0.95, 0.25], type: 6 },
    expected: [10, 2.75],
    tolerance: 1e-8,
  },
  {
    id: 'ST-21',
    quantity: 'sample quantile type 8 (Hyndman & Fan) of 1..10',
    kind: 'reference software',
    source: 'R 4.2.2 quantile(type)',
    inputs: { x: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10], p: [0.95, 0.25], type: 8 },
    expected: [10, 2.916666667],
    tolerance: 1e-8,
  },
  {
    id: 'ST-24',
    quantity: 'time-weighted average, irregular samples, hold-last and trapezoid',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    inputs: { t_min: [0, 10, 60], y: [0, 10, 10], end_min: 60 },
    expected: { arithmetic: 6.666666667, hold_last: 8.33333333333, trapezoid: 9.16666666667 },
    tolerance: 1e-8,
  },
  {
    id: 'ST-25',
    quantity: 'time-weighted average with a gap: 6 h data hole excluded at max gap 1 h',
    kind: 'reference software',
    source:
      'first principles (derivation in section text); computed in python3, re-computed independently in Node.js',
    inputs: { t_h: [0, 1, 7, 8], y: [1, 1, 5, 6], max_gap_h: 1 },
    expected: { trapezoid_all: 3.0625, trapezoid_excluding_gap: 3.25 },
    tolerance: 1e-9,
  },
]

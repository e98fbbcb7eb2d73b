/**
 * Newcombe (1998) Statistics in Medicine 17:857–872, table I, Wilson score without continuity correction,
 * printed to four decimals and recomputed to more. Published.
 */
export const newcombeTable = {
  source: 'Newcombe (1998) Statistics in Medicine 17:857–872, table I',
  sourceKind: 'published',
  tolerance: 1e-6,
  rows: [
    { received: 81, sent: 263, low: 0.255288519878, high: 0.366209576983 },
    { received: 15, sent: 148, low: 0.0623863995307, high: 0.160487241723 },
    { received: 0, sent: 20, low: 0, high: 0.161125158053 },
    { received: 1, sent: 29, low: 0.00611321429276, high: 0.171755218793 },
  ],
} as const

/** Wilson (1927), computed with another library. Published formula. */
export const packetIntervals = {
  source: 'Wilson (1927); Brown, Cai & DasGupta (2001)',
  sourceKind: 'published',
  tolerance: 1e-9,
  rows: [
    { received: 5, sent: 10, low: 0.236593090513, high: 0.763406909487 },
    { received: 10, sent: 20, low: 0.299298008198, high: 0.700701991802 },
    { received: 50, sent: 100, low: 0.403831530366, high: 0.596168469634 },
    { received: 45, sent: 50, low: 0.786397685625, high: 0.956524235068 },
    { received: 0, sent: 10, low: 0, high: 0.277532799863 },
  ],
} as const

/** Chance of passing "at least half", binomial. Published arithmetic; the rule itself has no published source. */
export const halfRule = {
  source: 'binomial distribution, independent packets and tests',
  sourceKind: 'published',
  tolerance: 1e-9,
  rows: [
    { trueShare: 0.4, sent: [10], chance: 0.3668967424 },
    { trueShare: 0.4, sent: [20], chance: 0.244662796684 },
    { trueShare: 0.4, sent: [100], chance: 0.027099197757 },
    { trueShare: 0.3, sent: [10], chance: 0.1502683326 },
    { trueShare: 0.3, sent: [10, 10, 10, 10, 10, 10], chance: 0.623564284428 },
  ],
} as const

/** Quantiles of the standard normal distribution, as in any table (for example NIST/SEMATECH e-Handbook 1.3.6.7.1). */
export const normalQuantiles = {
  source: 'tables of the standard normal distribution, to double precision',
  sourceKind: 'reference software',
  tolerance: 1e-14,
  rows: [
    { probability: 0.5, quantile: 0 },
    { probability: 0.75, quantile: 0.6744897501960817 },
    { probability: 0.95, quantile: 1.6448536269514722 },
    { probability: 0.975, quantile: 1.959963984540054 },
    { probability: 0.995, quantile: 2.5758293035489004 },
    { probability: 0.9995, quantile: 3.2905267314919255 },
    { probability: 0.001, quantile: -3.090232306167813 },
    { probability: 1e-12, quantile: -7.034483825301132 },
  ],
} as const

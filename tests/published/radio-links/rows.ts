import type { PublishedRow } from '../published-row.ts'

/** What radio links must give back, each with where it comes from. */
export const radioLinkRows: readonly PublishedRow[] = [
  {
    id: 'LRA-10',
    quantity: 'sensitivity = -174 + 10 log10(BW) + NF + SNR, NF 6 dB',
    unit: 'dBm',
    kind: 'published',
    source: 'thermal noise formula; same constants in ns-3 lorawan helper',
    note: 'noise floor -117.031 dBm. kT0 at 290 K is -173.975 dBm/Hz, so -174 costs 0.025 dB. Each doubling of BW costs 3.01 dB',
    inputs: {
      BW_Hz: 125000,
      NF_dB: 6,
    },
    expected: [-124.53089987, -127.03089987, -129.53089987, -132.03089987, -134.53089987, -137.03089987],
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'LRA-11',
    quantity: 'link margin: 14 dBm e.r.p. +2.15, path loss 140 dB, 2 dBi receive antenna, SF10',
    unit: 'dB',
    kind: 'published',
    source: 'link budget',
    note: 'e.i.r.p. = e.r.p. + 2.15 dB: mixing them is the usual slip',
    inputs: {
      eirp_dBm: 16.15,
      L_dB: 140,
      Gr_dBi: 2,
    },
    expected: 10.1808998699,
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'RAD-01',
    quantity: 'free-space loss 868 MHz at 0.1 1 5 10 km',
    unit: 'dB',
    kind: 'published',
    source: 'ITU-R P.525: 32.4 + 20 log f(MHz) + 20 log d(km) (formula seen)',
    note: 'exact constant 32.4478',
    inputs: {
      f_MHz: 868,
      d_km: [0.1, 1, 5, 10],
    },
    expected: {
      P525: [71.1703945035, 91.1703945035, 105.14979459, 111.170394504],
      exact: [71.2181777254, 91.2181777254, 105.197577812, 111.218177725],
    },
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'RAD-02',
    quantity: 'free-space loss 915 MHz 100 km',
    unit: 'dB',
    kind: 'published',
    source: 'exact; a public test prints 131.68',
    inputs: {
      f_MHz: 915,
      d_km: 100,
    },
    expected: 131.676205103,
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'RAD-03',
    quantity: 'first Fresnel radius, 868 MHz, mid-path of 1 km and at 1 km of 5 km',
    unit: 'm',
    kind: 'published',
    source: 'ITU-R P.526 eq. 3: 550 sqrt(n d1 d2/((d1+d2) f)) (seen)',
    note: '550 rounds 547.5: 0.45 % high. 60 % clearance is the usual rule',
    inputs: {
      f_MHz: 868,
      d1_d2_km: [
        [0.5, 0.5],
        [1, 4],
      ],
    },
    expected: {
      P526_practical: [9.3341082079, 16.6973603698],
      exact: [9.29224160428, 16.6224671124],
    },
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'RAD-04',
    quantity: 'knife edge J(v): exact and P.526 approximation',
    unit: 'dB',
    kind: 'published',
    source: 'ITU-R P.526 single knife edge; exact from scipy Fresnel integrals',
    note: 'approximation from memory of the Recommendation, exact values re-computed; J(0)=6.02 exact, 6.03 approximate. Below v=-0.78 use 0 dB',
    inputs: {
      v: [-0.78, -0.5, 0, 0.5, 1, 2, 2.4, 5],
    },
    expected: {
      exact: [
        -0.0111379450764, 1.85862396164, 6.02059991328, 10.2338304663, 13.8641054136, 19.0909623787,
        20.618195412, 26.9361979405,
      ],
      approx: [
        0.00403813515899, 1.95924970623, 6.03285220856, 10.2878037425, 13.925728935, 19.0428595136,
        20.5392661297, 26.8135811225,
      ],
    },
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'RAD-05',
    quantity: 'knife edge 10 m above the line, 400 m / 600 m, 868 MHz',
    unit: 'dB',
    kind: 'published',
    source: 'ITU-R P.526: v = h sqrt(2/lambda (1/d1+1/d2))',
    note: 'formula from memory (certain); h<0 when the edge is below the line of sight',
    inputs: {
      h_m: 10,
      d1_m: 400,
      d2_m: 600,
      f_MHz: 868,
    },
    expected: {
      v: 1.55331268217,
      J_approx_dB: 17.0501881387,
      J_exact_dB: 17.0496675239,
    },
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'RAD-07',
    quantity: 'two-ray: break distance 4 ht hr/lambda and 4 pi ht hr/lambda, ht=10 hr=1.5',
    unit: 'm',
    kind: 'from memory',
    source: 'Rappaport, Wireless Communications (textbook)',
    note: 'two definitions are in use and differ by pi: name the one shown',
    inputs: {
      f_MHz: 868,
      ht_m: 10,
      hr_m: 1.5,
    },
    expected: {
      '4hh/lambda': 173.720180779,
      '4pi_hh/lambda': 545.758043716,
    },
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'RAD-08',
    quantity: 'two-ray loss (reflection -1) at 100 500 2000 m and the 40 log d law',
    unit: 'dB',
    kind: 'published',
    source: 'two-ray ground model, recomputed',
    note: 'the asymptote is only valid well past the break distance: 16 dB wrong at 100 m, 0.03 dB at 2 km',
    inputs: {
      f_MHz: 868,
      ht_m: 10,
      hr_m: 1.5,
      d_m: [100, 500, 2000],
    },
    expected: {
      exact: [72.9054911943, 84.8758952958, 108.546561769],
      asymptote: [56.4781748189, 84.4369749923, 108.519374645],
    },
    tolerance: {
      abs: 1e-5,
    },
  },
  {
    id: 'RAD-10',
    quantity: 'confusion of the 50 % rule at SF7 with RSSI >= -124.5 dBm',
    unit: 'spots',
    kind: 'reference software',
    source: 'own count',
    inputs: {
      data: 'reference/coverage.csv',
      accept: 'received_sf7 >= 10 of 20',
    },
    expected: {
      accepted_sf7: 20,
      accepted_sf12: 24,
      accepted_any: 24,
      TP: 20,
      FP: 0,
      FN: 0,
      TN: 4,
    },
    tolerance: {
      abs: 0,
    },
  },
  {
    id: 'BIN-01',
    quantity: '95 % interval 81/263: Wilson and Clopper-Pearson',
    unit: '',
    kind: 'published',
    source:
      'Newcombe (1998) Statistics in Medicine 17:857-872 table I (Wilson rows seen in many public test suites; Clopper-Pearson rows from memory, recomputed)',
    note: 'paper prints .2553-.3662 / .2527-.3676',
    inputs: {
      k: 81,
      n: 263,
    },
    expected: {
      wilson: [0.255288519878, 0.366209576983],
      clopper_pearson: [0.252736745585, 0.367621922601],
    },
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'BIN-02',
    quantity: '95 % interval 15/148: Wilson and Clopper-Pearson',
    unit: '',
    kind: 'published',
    source:
      'Newcombe (1998) Statistics in Medicine 17:857-872 table I (Wilson rows seen in many public test suites; Clopper-Pearson rows from memory, recomputed)',
    note: 'paper prints .0624-.1605 / .0578-.1617. Mind: 0.0625-0.1620 is the continuity-corrected Wilson variant',
    inputs: {
      k: 15,
      n: 148,
    },
    expected: {
      wilson: [0.0623863995307, 0.160487241723],
      clopper_pearson: [0.0578440100834, 0.161650490349],
    },
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'BIN-03',
    quantity: '95 % interval 0/20: Wilson and Clopper-Pearson',
    unit: '',
    kind: 'published',
    source:
      'Newcombe (1998) Statistics in Medicine 17:857-872 table I (Wilson rows seen in many public test suites; Clopper-Pearson rows from memory, recomputed)',
    note: 'paper prints 0-.1611 / 0-.1684',
    inputs: {
      k: 0,
      n: 20,
    },
    expected: {
      wilson: [0, 0.161125158053],
      clopper_pearson: [0, 0.168433470983],
    },
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'BIN-04',
    quantity: '95 % interval 1/29: Wilson and Clopper-Pearson',
    unit: '',
    kind: 'published',
    source:
      'Newcombe (1998) Statistics in Medicine 17:857-872 table I (Wilson rows seen in many public test suites; Clopper-Pearson rows from memory, recomputed)',
    note: 'paper prints .0061-.1718 / .0009-.1776',
    inputs: {
      k: 1,
      n: 29,
    },
    expected: {
      wilson: [0.00611321429276, 0.171755218793],
      clopper_pearson: [0.00087264688358, 0.177644295489],
    },
    tolerance: {
      abs: 1e-6,
    },
  },
  {
    id: 'BIN-05',
    quantity: '95 % interval 5/10 packets',
    unit: '',
    kind: 'published',
    source: 'Wilson (1927); Clopper & Pearson (1934); scipy beta quantiles',
    note: '5/10 is compatible with a link that delivers 24 % or 76 %',
    inputs: {
      k: 5,
      n: 10,
    },
    expected: {
      wilson: [0.236593090513, 0.763406909487],
      clopper_pearson: [0.187086028447, 0.812913971553],
    },
    tolerance: {
      abs: 1e-9,
    },
  },
  {
    id: 'BIN-06',
    quantity: '95 % interval 10/20 packets',
    unit: '',
    kind: 'published',
    source: 'Wilson (1927); Clopper & Pearson (1934); scipy beta quantiles',
    inputs: {
      k: 10,
      n: 20,
    },
    expected: {
      wilson: [0.299298008198, 0.700701991802],
      clopper_pearson: [0.271957849561, 0.728042150439],
    },
    tolerance: {
      abs: 1e-9,
    },
  },
  {
    id: 'BIN-09',
    quantity: '95 % interval 50/100 packets',
    unit: '',
    kind: 'published',
    source: 'Wilson (1927); Clopper & Pearson (1934); scipy beta quantiles',
    inputs: {
      k: 50,
      n: 100,
    },
    expected: {
      wilson: [0.403831530366, 0.596168469634],
      clopper_pearson: [0.398321129503, 0.601678870497],
    },
    tolerance: {
      abs: 1e-9,
    },
  },
  {
    id: 'BIN-10',
    quantity: '95 % interval 45/50 packets',
    unit: '',
    kind: 'published',
    source: 'Wilson (1927); Clopper & Pearson (1934); scipy beta quantiles',
    inputs: {
      k: 45,
      n: 50,
    },
    expected: {
      wilson: [0.786397685625, 0.956524235068],
      clopper_pearson: [0.781864633566, 0.966724906411],
    },
    tolerance: {
      abs: 1e-9,
    },
  },
  {
    id: 'BIN-11',
    quantity: '95 % interval 0/10 packets',
    unit: '',
    kind: 'published',
    source: 'Wilson (1927); Clopper & Pearson (1934); scipy beta quantiles',
    inputs: {
      k: 0,
      n: 10,
    },
    expected: {
      wilson: [0, 0.277532799863],
      clopper_pearson: [0, 0.308497107819],
    },
    tolerance: {
      abs: 1e-9,
    },
  },
  {
    id: 'BIN-13',
    quantity: 'chance that a true p=0.4 link passes "at least half of n", n=10 20 100',
    unit: '',
    kind: 'published',
    source: 'binomial',
    note: 'the "at least half the test packets at any one spreading factor" rule is common practice, no published source',
    inputs: {
      p: 0.4,
      n: [10, 20, 100],
    },
    expected: [0.3668967424, 0.244662796684, 0.027099197757],
    tolerance: {
      abs: 1e-9,
    },
  },
  {
    id: 'BIN-14',
    quantity: 'same rule, p=0.3, n=10, best of 1 and of 6 spreading factors',
    unit: '',
    kind: 'published',
    source: 'binomial, independent tests',
    note: 'trying six SFs turns 15 % into 62 %: count the trials or require the pass to repeat',
    inputs: {
      p: 0.3,
      n: 10,
    },
    expected: {
      one: 0.1502683326,
      any_of_six: 0.623564284428,
    },
    tolerance: {
      abs: 1e-9,
    },
  },
]

import type { PublishedRow } from '../published-row.ts'

/** Monthly deaths from lung diseases in the UK 1974–1979, men and women: Diggle (1990), data sets mdeaths and fdeaths of R. */
const men = [
  2134, 1863, 1877, 1877, 1492, 1249, 1280, 1131, 1209, 1492, 1621, 1846, 2103, 2137, 2153, 1833, 1403, 1288,
  1186, 1133, 1053, 1347, 1545, 2066, 2020, 2750, 2283, 1479, 1189, 1160, 1113, 970, 999, 1208, 1467, 2059,
  2240, 1634, 1722, 1801, 1246, 1162, 1087, 1013, 959, 1179, 1229, 1655, 2019, 2284, 1942, 1423, 1340, 1187,
  1098, 1004, 970, 1140, 1110, 1812, 2263, 1820, 1846, 1531, 1215, 1075, 1056, 975, 940, 1081, 1294, 1341,
]
const women = [
  901, 689, 827, 677, 522, 406, 441, 393, 387, 582, 578, 666, 830, 752, 785, 664, 467, 438, 421, 412, 343,
  440, 531, 771, 767, 1141, 896, 532, 447, 420, 376, 330, 357, 445, 546, 764, 862, 660, 663, 643, 502, 392,
  411, 348, 387, 385, 411, 638, 796, 853, 737, 546, 530, 446, 431, 362, 387, 430, 425, 679, 821, 785, 727,
  612, 478, 429, 405, 379, 393, 411, 487, 574,
]
const [tiedX, tiedY] = [
  [1, 2, 2, 4, 5, 7, 7, 7, 9, 11],
  [2, 1, 4, 4, 6, 5, 8, 9, 9, 10],
]

/** How series are held against each other, each with where it comes from. */
export const comparisonRows: readonly PublishedRow[] = [
  {
    id: 'CO-01',
    quantity: 'Pearson correlation and its interval by Fisher z, pairs taken as independent',
    unit: '',
    kind: 'reference software',
    source: 'scipy 1.17.1, stats.pearsonr(men, women).confidence_interval(0.95)',
    inputs: { one: men, other: women },
    expected: { r: 0.9762412512224762, low: 0.9621845985320642, high: 0.9851124419278469 },
    tolerance: { rel: 1e-10 },
  },
  {
    id: 'CO-02',
    quantity: 'Spearman rank correlation, men and women',
    unit: '',
    kind: 'reference software',
    source: 'scipy 1.17.1, stats.spearmanr(men, women)',
    inputs: { one: men, other: women },
    expected: 0.9550640406838097,
    tolerance: { abs: 1e-12 },
  },
  {
    id: 'CO-03',
    quantity: 'Spearman rank correlation with ties',
    unit: '',
    kind: 'reference software',
    source: 'scipy 1.17.1, stats.spearmanr; data made for the purpose',
    inputs: { one: tiedX, other: tiedY },
    expected: 0.9257365248800182,
    tolerance: { abs: 1e-12 },
  },
  {
    id: 'CO-04',
    quantity:
      'Independent pairs of two seasonal series: Pyper and Peterman (1998) eq. 1 with autocorrelations of eq. 7 to N/5',
    unit: '',
    kind: 'reference software',
    source:
      'numpy 2.4.6: 1/(1/n + 2/n*sum((1-j/n)*a[j]*b[j] for j in 1..n//5)), a[j] = sum(d[j:]*d[:-j])/(n-j)/mean(d*d); equations from memory of the paper',
    inputs: { one: men, other: women },
    expected: 7.608939480167118,
    tolerance: { rel: 1e-10 },
  },
  {
    id: 'CO-05',
    quantity: "Tukey's median polish, child deaths by age of mother and period",
    unit: '',
    kind: 'published',
    source:
      "R's example(medpolish): deaths of Hoaglin, Mosteller and Tukey's Understanding Robust and Exploratory Data Analysis; overall 8, final sum 19; from memory, and the same by numpy 2.4.6",
    inputs: {
      table: [
        [14, 15, 14],
        [7, 4, 7],
        [8, 2, 10],
        [15, 9, 10],
        [0, 2, 0],
      ],
    },
    expected: { overall: 8, rows: [6, -1, 0, 2, -8], columns: [0, -1, 0], left: 19 },
    tolerance: { abs: 1e-12 },
  },
  {
    id: 'CO-06',
    quantity: 'Theil–Sen line of women on men with its interval',
    unit: '',
    kind: 'reference software',
    source: 'scipy 1.17.1, stats.theilslopes(women, men, 0.95); its intercept is that of the medians',
    inputs: { x: men, y: women },
    expected: {
      slope: 0.3900196054865316,
      intercept: -12.186349773898428,
      low: 0.3671497584541063,
      high: 0.41429731925264013,
    },
    tolerance: { rel: 1e-10 },
  },
]

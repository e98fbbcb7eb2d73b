import { pressureHeadMetres } from '#domain/reduction/hydrostatics.ts'
import { unitWeightKnPerM3 } from '#domain/reduction/water-density.ts'
import { convert } from '#domain/units.ts'
import type { PublishedTable } from '../published-row.ts'
import { unitsRows } from './rows.ts'

/** The rows' names of units that are not ours. */
const codes: Readonly<Record<string, string>> = {
  'tsf (US short ton/ft^2)': 'tsf',
  'mbar=hPa': 'mbar',
  'mH2O conventional': 'm[H2O]',
  'ftH2O conventional': "[ft_i'H2O]",
  'inH2O conventional': "[in_i'H2O]",
  'mmHg conventional': 'mm[Hg]',
  'inHg conventional': "[in_i'Hg]",
  'lbf/ft3': '[lbf_av]/[cft_i]',
  'US survey foot': '[ft_us]',
  'US gal/min': '[gal_us]/min',
  'imp gal/min': '[gal_br]/min',
  'mil (0.001 in)': '[mil_i]',
}

function converted(value: number, from: string, to: string): number {
  const outcome = convert(value, codes[from] ?? from, codes[to] ?? to)
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  return outcome.value
}

const factors = unitsRows.filter(({ quantity }) => quantity.startsWith('unit factor'))

export const units: PublishedTable = {
  area: 'units',
  rows: unitsRows,
  computed: {
    ...Object.fromEntries(factors.map(({ id }) => [id, ({ value, from, to }) => converted(value, from, to)])),
    'UN-26': ({ p_kPa }) => ({
      conventional: converted(p_kPa, 'kPa', 'm[H2O]'),
      'rho_999.97495': pressureHeadMetres(p_kPa, unitWeightKnPerM3(999.97495)),
      'rho_998.2067': pressureHeadMetres(p_kPa, unitWeightKnPerM3(998.2067)),
    }),
  },
}

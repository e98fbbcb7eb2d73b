import {
  altitudeOfPressure,
  geopotentialMetres,
  pressureAtLevel,
  reducedToSeaLevelHpa,
  standardAir,
  stationPressure,
} from '#domain/reduction/atmosphere.ts'
import { pressureHeadMetres } from '#domain/reduction/hydrostatics.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { reduce, step } from '../run-steps.ts'
import { airPressureRows } from './rows.ts'

function air({ H_gpm }: PublishedInputs) {
  const { temperatureKelvin, pressurePa, densityKgPerM3 } = standardAir(H_gpm)
  return { T_K: temperatureKelvin, p_Pa: pressurePa, rho_kg_m3: densityKgPerM3 }
}

const atAltitudes = airPressureRows.filter(({ quantity }) => quantity.startsWith('standard atmosphere at'))

const station = ({ ps_hPa, H_m, Hp_gpm, t_C, e_hPa }: PublishedInputs) => ({
  pressureHpa: ps_hPa,
  heightMetres: H_m ?? Hp_gpm,
  temperatureDegC: t_C,
  vapourPressureHpa: e_hPa,
})

/** An absolute sensor: its zero is a vacuum. */
const gaugeKpa = ({ p_abs_kPa, baro_kPa }: PublishedInputs) =>
  reduce(p_abs_kPa, [step('barometric', { reference: 0, maximumAgeMinutes: 60 })], {
    barometerKpa: baro_kPa,
  })

const conventionalHead = (kpa: number) => pressureHeadMetres(kpa, 9.80665)

export const airPressure: PublishedTable = {
  area: 'air pressure',
  rows: airPressureRows,
  computed: {
    ...Object.fromEntries(atAltitudes.map(({ id }) => [id, air])),
    'ATM-13': ({ p_Pa }) => altitudeOfPressure(p_Pa),
    'ATM-14': ({ Z_m }) => ({
      H_gpm: geopotentialMetres(Z_m),
      p_Pa: standardAir(geopotentialMetres(Z_m)).pressurePa,
    }),
    'ATM-15': ({ p_hPa, dz_m, Tmean_C }) => pressureAtLevel(p_hPa, dz_m, Tmean_C),
    'ATM-17': ({ QNH_hPa, elev_m }) => stationPressure(QNH_hPa, elev_m),
    'ATM-18': ({ H_gpm: [low, high] }) =>
      (standardAir(low).pressurePa - standardAir(high).pressurePa) / (high - low),
    'ATM-19': (given) => reducedToSeaLevelHpa(station(given), 'vub2'),
    'ATM-20': (given) => reducedToSeaLevelHpa(station(given), 'wmo-8'),
    'ATM-21': (given) => ({ u_kPa: gaugeKpa(given), head_m: conventionalHead(gaugeKpa(given)) }),
    // The mistake: a fixed air pressure is taken off as a zero, instead of the barometer's.
    'ATM-22': (given) =>
      conventionalHead(reduce(given.p_abs_kPa, [step('zero', { value: 101.325 })])) -
      conventionalHead(gaugeKpa(given)),
    'ATM-23': ({ dp_kPa }) => dp_kPa.map(conventionalHead),
  },
}

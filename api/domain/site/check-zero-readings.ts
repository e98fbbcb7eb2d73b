import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import type { CalibrationStep, Companions } from '../reduction/chain.ts'
import { parseStepParameters } from '../reduction/parse-step-parameters.ts'
import { runChain } from '../reduction/run-chain.ts'
import { steps as stepsByKind } from '../reduction/steps.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

/** What a zero reading lacks, by the companion that a step of its calibration needs. */
const lacking = {
  temperatureDegC: { code: 'zero-without-temperature', term: 'thermal', what: 'the temperature' },
  barometerKpa: { code: 'zero-without-barometer', term: 'barometric', what: 'the station pressure' },
} as const

/**
 * Every zero reading can be reduced by the chain of its calibration: the companions that it needs stand in its row,
 * and it has a value. A calibration that is not there is told with the other references; one whose steps cannot be
 * read is not judged.
 */
export function checkZeroReadings(site: SiteReadings): readonly Issue[] {
  const unclear = new Set(site.calibrationSteps.unsound.map(({ written }) => written.calibration))
  const rows = groupBy(site.calibrationSteps.sound, ({ row }) => row.calibration)
  return site.zeroReadings.sound.flatMap(({ line, row }): Issue[] => {
    const own = rows.get(row.calibration)?.toSorted((one, other) => one.row.step - other.row.step) ?? []
    const parsed = own.map(({ row }) => parseStepParameters(row.kind, row.parameters ?? ''))
    if (own.length === 0 || unclear.has(row.calibration) || parsed.some(({ ok }) => !ok)) return []
    const companions = (Object.keys(lacking) as (keyof Companions)[]).filter(
      (name) => row[name] === null && own.some(({ row }) => stepsByKind[row.kind].needs === name),
    )
    if (companions.length > 0)
      return companions.map((name) => ({
        ...cellIssue('zeroReadings', line, name, row[name]),
        code: lacking[name].code,
        expected: 'a number',
        message: `${row.calibration} has a ${lacking[name].term} term, so ${lacking[name].what} at this zero reading must be known. Fill in ${name}, or take the row out.`,
      }))
    const steps = own.flatMap(({ row }, at): CalibrationStep[] => {
      const outcome = parsed[at]
      return outcome?.ok ? [{ kind: row.kind, parameters: outcome.value }] : []
    })
    if (runChain(row.raw, steps, row).value !== null) return []
    return [
      {
        ...cellIssue('zeroReadings', line, 'raw', row.raw),
        code: 'zero-not-computable',
        expected: 'a reading that the chain gives a value of',
        message: `${row.calibration} gives no value of a reading of ${row.raw}. Correct the reading, or the calibration that it stands under.`,
      },
    ]
  })
}

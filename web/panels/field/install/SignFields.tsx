import type { InstallationBody } from '#domain/field/field-bodies.ts'
import { TypedNumber } from '../TypedNumber.tsx'
import { TypedChoice, TypedText } from '../TypedText.tsx'

/** Which way an instrument counts, from which end, and whether it may fall silent. */
export function SignFields(props: {
  body: InstallationBody
  change: (of: Partial<InstallationBody>) => void
}) {
  return (
    <>
      <div class="field-choices">
        <TypedNumber
          label="Bearing of the positive A axis from grid north"
          unit="°"
          value={props.body.axisBearingDegrees}
          onChange={(axisBearingDegrees) => props.change({ axisBearingDegrees })}
        />
        <TypedText
          label="What a positive value means"
          value={props.body.positiveMeans}
          onChange={(positiveMeans) => props.change({ positiveMeans })}
        />
        <TypedChoice
          label="End taken to stand still"
          value={props.body.fixedEnd ?? ''}
          options={[
            { word: '', name: 'does not apply' },
            { word: 'toe', name: 'toe' },
            { word: 'head', name: 'head' },
            { word: 'deepest-anchor', name: 'deepest anchor' },
            { word: 'surveyed-head', name: 'surveyed head' },
            { word: 'none', name: 'none' },
          ]}
          onChange={(word) =>
            props.change({ fixedEnd: word === '' ? null : (word as InstallationBody['fixedEnd']) })
          }
        />
      </div>
      <label class="field-check">
        <input
          type="checkbox"
          checked={props.body.critical}
          onChange={(event) => props.change({ critical: event.currentTarget.checked })}
        />
        Its silence must itself be noticed
      </label>
    </>
  )
}

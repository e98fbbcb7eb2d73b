import { Index } from 'solid-js'
import type { FaceReport } from '#domain/ground/troughs/face-reports.ts'
import { NumberField } from './NumberField.tsx'
import { SinceField } from './SinceField.tsx'

/** Where the face of a drive stood, to be read or stated. */
export function FaceFields(props: {
  faces: readonly FaceReport[]
  fallback: FaceReport
  onChange: (faces: readonly FaceReport[]) => void
}) {
  const change = (at: number, part: Partial<FaceReport>) =>
    props.onChange(props.faces.map((one, place) => (place === at ? { ...one, ...part } : one)))
  return (
    <fieldset class="face-fields">
      <legend>Face of the drive</legend>
      <Index each={props.faces}>
        {(face, at) => (
          <div class="ground-fields">
            <SinceField
              name={`Face ${at + 1}, when`}
              atEpochMs={face().atEpochMs}
              onChange={(atEpochMs) => change(at, { atEpochMs })}
            />
            <NumberField
              name={`Face ${at + 1}, chainage`}
              unit="m"
              value={face().chainageMetres}
              onChange={(chainageMetres) => change(at, { chainageMetres })}
            />
            <button
              type="button"
              onClick={() => props.onChange(props.faces.filter((_, place) => place !== at))}
            >
              Take face {at + 1} away
            </button>
          </div>
        )}
      </Index>
      <button
        type="button"
        onClick={() => props.onChange([...props.faces, props.faces.at(-1) ?? props.fallback])}
      >
        Add a place of the face
      </button>
    </fieldset>
  )
}

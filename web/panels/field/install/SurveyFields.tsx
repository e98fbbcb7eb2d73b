import { Show } from 'solid-js'
import type { InstallationBody } from '#domain/field/field-bodies.ts'
import { isInHole } from '#domain/field/in-hole.ts'
import { TypedNumber } from '../TypedNumber.tsx'
import { TypedInstant, TypedText } from '../TypedText.tsx'

/** The collar as surveyed and, for what stands in one, the hole as drilled. */
export function SurveyFields(props: {
  body: InstallationBody
  change: (of: Partial<InstallationBody>) => void
}) {
  return (
    <>
      <fieldset class="field-group">
        <legend>Collar as surveyed</legend>
        <div class="field-choices">
          <TypedNumber
            label="Easting"
            unit="m"
            value={props.body.eastingMetres}
            onChange={(eastingMetres) => props.change({ eastingMetres })}
          />
          <TypedNumber
            label="Northing"
            unit="m"
            value={props.body.northingMetres}
            onChange={(northingMetres) => props.change({ northingMetres })}
          />
          <TypedNumber
            label="Level"
            unit="m"
            value={props.body.collarLevelMetres}
            onChange={(collarLevelMetres) => props.change({ collarLevelMetres })}
          />
          <TypedInstant
            label="Surveyed at"
            value={props.body.surveyedAtEpochMs}
            onChange={(surveyedAtEpochMs) => props.change({ surveyedAtEpochMs })}
          />
          <TypedText
            label="Surveyed by"
            value={props.body.surveyedBy}
            onChange={(surveyedBy) => props.change({ surveyedBy })}
          />
        </div>
      </fieldset>
      <Show when={isInHole(props.body.instrumentKind)}>
        <fieldset class="field-group">
          <legend>Hole as drilled</legend>
          <div class="field-choices">
            <TypedNumber
              label="Bearing from grid north"
              unit="°"
              value={props.body.azimuthDegrees}
              onChange={(azimuthDegrees) => props.change({ azimuthDegrees })}
            />
            <TypedNumber
              label="Angle below horizontal"
              unit="°"
              value={props.body.dipDegrees}
              onChange={(dipDegrees) => props.change({ dipDegrees })}
            />
            <TypedNumber
              label="Length"
              unit="m"
              value={props.body.lengthMetres}
              onChange={(lengthMetres) => props.change({ lengthMetres })}
            />
            <TypedText label="Grout" value={props.body.grout} onChange={(grout) => props.change({ grout })} />
          </div>
        </fieldset>
      </Show>
    </>
  )
}

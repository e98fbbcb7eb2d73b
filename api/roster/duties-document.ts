import type { DutiesDocument, DutyStanding } from '#contract/duties-document.ts'
import { escalationSentences, escalationSteps } from '#domain/escalation/escalation-steps.ts'
import { levelsInForce } from '#domain/levels/levels-in-force.ts'
import { coverageHoles, coverageMs } from '#domain/roster/coverage.ts'
import { holeSentence } from '#domain/roster/hole-sentence.ts'
import { dutiesOf, onDuty } from '#domain/roster/on-duty.ts'
import { shiftStretches } from '#domain/roster/shift-stretches.ts'
import { parseDay } from '#domain/roster/shift-times.ts'
import { wallReading } from '#domain/roster/wall-clock.ts'
import { waysToNowhere } from '#domain/roster/ways-to-nowhere.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { withEnds } from '#domain/suppression/held-back.ts'

const weekMs = 7 * 86_400_000

/** What the records of a site do not say. */
export interface DutiesSurroundings {
  /** Those of the site that are sent to. */
  readonly webhookNames: ReadonlySet<string>
  /** Of accounts that are told of the site, at least those that the roster names. */
  readonly signInNames: ReadonlySet<string>
}

/** Who is told at a site, at an instant and on. */
export function dutiesDocument(
  model: SiteModel,
  atEpochMs: number,
  { webhookNames, signInNames }: DutiesSurroundings,
): DutiesDocument {
  const today = wallReading(atEpochMs, model.facts.timeZone).day
  return {
    site: model.facts.id,
    atEpochMs,
    coveredUntilEpochMs: atEpochMs + coverageMs,
    duties: dutiesOf(model).map((duty) => dutyStanding(model, duty, atEpochMs)),
    holidays: model.holidays
      .filter(({ date }) => (parseDay(date) ?? 0) >= today)
      .toSorted((one, other) => (one.date < other.date ? -1 : 1)),
    suppressions: withEnds(model.suppressions, model.suppressionEnds)
      .map(({ suppression, untilEpochMs, ended }) => ({
        ...suppression,
        ended,
        untilEpochMs,
        stands: suppression.fromAt <= atEpochMs && atEpochMs < untilEpochMs,
      }))
      .sort((one, other) => other.fromAt - one.fromAt),
    nowhere: waysToNowhere(model.contacts, webhookNames, signInNames),
  }
}

function dutyStanding(model: SiteModel, duty: string, atEpochMs: number): DutyStanding {
  const until = atEpochMs + weekMs
  const nameOf = new Map(model.contacts.map(({ id, name }) => [id, name]))
  const turns = joinedTurns(model, duty, atEpochMs, until)
  return {
    duty,
    levels: levelsInForce(model.triggerLevels, atEpochMs).filter(({ owner }) => owner === duty).length,
    now: onDuty(model, duty, atEpochMs).map(({ order, contact, ways, untilEpochMs }) => ({
      order,
      name: contact.name,
      ways: [...new Set(ways.map(({ kind }) => kind))],
      untilEpochMs:
        turns.find((turn) => turn.order === order && turn.contact === contact.id && isOn(turn, atEpochMs))
          ?.untilEpochMs ?? untilEpochMs,
    })),
    week: {
      fromEpochMs: atEpochMs,
      untilEpochMs: until,
      turns: turns.map(({ contact, ...turn }) => ({ ...turn, name: nameOf.get(contact) ?? contact })),
    },
    holes: coverageHoles(model, duty, atEpochMs, atEpochMs + coverageMs).map((hole) => ({
      fromEpochMs: hole.fromEpochMs,
      untilEpochMs: hole.untilEpochMs,
      because: hole.because,
      sentence: holeSentence(hole, model.facts.timeZone),
    })),
    steps: escalationSentences(escalationSteps(duty, model.escalations, model.dutyShifts)),
    stepsWritten: model.escalations.some((row) => row.duty === duty),
  }
}

interface Turn {
  readonly order: number
  readonly contact: string
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

const isOn = ({ fromEpochMs, untilEpochMs }: Turn, atEpochMs: number): boolean =>
  fromEpochMs <= atEpochMs && atEpochMs < untilEpochMs

/** Turns of a duty that touch a stretch; those of one person that follow on each other are one. */
function joinedTurns(
  { dutyShifts, holidays }: SiteModel,
  duty: string,
  fromEpochMs: number,
  untilEpochMs: number,
): readonly Turn[] {
  const turns = dutyShifts
    .filter((shift) => shift.duty === duty)
    .flatMap((shift) =>
      shiftStretches(shift, holidays, fromEpochMs, untilEpochMs).map((turn) => ({
        order: shift.order,
        contact: shift.contact,
        ...turn,
      })),
    )
    .sort((one, other) => one.order - other.order || one.fromEpochMs - other.fromEpochMs)
  const joined: Turn[] = []
  for (const turn of turns) {
    const place = joined.findLastIndex(
      (one) =>
        one.order === turn.order && one.contact === turn.contact && one.untilEpochMs >= turn.fromEpochMs,
    )
    const before = joined[place]
    if (before) joined[place] = { ...before, untilEpochMs: Math.max(before.untilEpochMs, turn.untilEpochMs) }
    else joined.push(turn)
  }
  return joined
}

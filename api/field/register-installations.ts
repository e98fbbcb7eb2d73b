import type { FieldEffect } from '#contract/field-entry.ts'
import { installationRows } from '#domain/field/installation-rows.ts'
import { installationStanding } from '#domain/field/installation-standing.ts'
import { type Issue, issueLine } from '#domain/outcome.ts'
import { modelFaults } from '#domain/site/check-model.ts'
import type { SiteModel } from '#domain/site/site.ts'
import {
  type EntryOf,
  eachByItself,
  effectOf,
  type FieldSite,
  type FieldTools,
  type NumberedEffect,
  ofKind,
} from './field-site.ts'

type Installation = EntryOf<'installation'>
type Rows = ReturnType<typeof installationRows>

const mostMissing = 3

/**
 * Puts installations that are complete and were checked by a second person into the register: all their records in one
 * transaction, after the site with them has passed the checks of a site folder. What is in the register stays there;
 * a later record of the same instrument changes nothing by itself.
 */
export async function registerInstallations(
  tools: FieldTools,
  field: FieldSite,
): Promise<readonly NumberedEffect[]> {
  const pending = ofKind(field.entries, 'installation').filter(({ effect }) => effect?.outcome !== 'taken')
  return eachByItself(tools, pending, async (one) => [
    { number: one.number, effect: await register(tools, field, one) },
  ])
}

async function register(
  { store, now, touch }: FieldTools,
  field: FieldSite,
  { entry }: Installation,
): Promise<FieldEffect> {
  const { body } = entry
  const site = field.model.facts.id
  const standing = field.standings.get(`installation:${body.instrument}`)
  if (standing?.disputed)
    return effectOf('kept', [
      `Records of ${body.instrument} stand side by side. None is taken into the register until one is chosen.`,
    ])
  if (!standing?.entries.some(({ id }) => id === entry.id))
    return effectOf('kept', [`A later record of ${body.instrument} stands in its place.`])
  // The model of the field is from before this run; another installation may have been registered since.
  const model = (await store.getSite(site)) ?? field.model
  if (model.instruments.some(({ id }) => id === body.instrument)) {
    const [first] = await store.listVersions(site, 'instruments', body.instrument)
    return first?.reason === reasonOf(entry.id)
      ? taken(body.instrument)
      : effectOf('kept', [
          `${body.instrument} is in the register already. What this record says otherwise has not been taken: change it there, or record the new one under a name of its own.`,
        ])
  }
  const senders = new Map(field.entries.map((one) => [one.entry.id, one.sender]))
  const senderOf = (id: string) => senders.get(id) ?? null
  const checks = (field.standings.get(`second-check:${body.instrument}:${entry.id}`)?.entries ?? []).map(
    (check) => ({ ...check, sender: senderOf(check.id) }),
  )
  const recorded = { ...entry, body, sender: senderOf(entry.id) }
  const { status, missing, checkedBy } = installationStanding(recorded, checks, model)
  if (status === 'recorded')
    return effectOf('kept', [`${body.instrument} is recorded, not commissioned.`, ...few(missing)])
  const author = entry.author.trim()
  const rows = installationRows(body, { author, checkedBy: checkedBy?.trim() ?? '' })
  try {
    await store.changeSite(site, (latest) => checked(withRows(latest, rows)), {
      author,
      reason: reasonOf(entry.id),
      atEpochMs: now(),
    })
  } catch (cause) {
    if (!(cause instanceof FaultyModel)) throw cause
    return effectOf('refused', [
      `${body.instrument} is complete and checked, but the register cannot take it: nothing of it was taken.`,
      ...few(cause.issues),
    ])
  }
  touch()
  return taken(body.instrument)
}

const reasonOf = (id: string): string => `Recorded along the works, entry ${id}`

const taken = (instrument: string): FieldEffect =>
  effectOf('taken', [
    `${instrument} is commissioned and in the register, with its points, sensors, calibrations and wiring.`,
  ])

function few(issues: readonly Issue[]): readonly string[] {
  const more = issues.length - mostMissing
  return [
    ...issues.slice(0, mostMissing).map(({ message }) => message),
    ...(more > 0 ? [`${more} more like these.`] : []),
  ]
}

function withRows(model: SiteModel, rows: Rows): SiteModel {
  const tables = Object.keys(rows) as (keyof Rows)[]
  return {
    ...model,
    ...Object.fromEntries(tables.map((table) => [table, [...model[table], ...rows[table]]])),
  }
}

class FaultyModel extends Error {
  readonly issues: readonly Issue[]

  constructor(issues: readonly Issue[]) {
    super(issues.map(issueLine).join('\n'))
    this.issues = issues
  }
}

function checked(model: SiteModel): SiteModel {
  const faults = modelFaults(model)
  if (faults.length > 0) throw new FaultyModel(faults)
  return model
}

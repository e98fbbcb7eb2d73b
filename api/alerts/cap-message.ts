import { assert } from '#domain/assert.ts'
import { capInstant } from './cap-instant.ts'
import { toXmlDocument, type XmlElements } from './xml-document.ts'

/** Another message, as CAP names it. */
export interface CapReference {
  readonly sender: string
  readonly identifier: string
  readonly sentEpochMs: number
}

/** Degrees of WGS 84. */
export interface CapPosition {
  readonly latitudeDegrees: number
  readonly longitudeDegrees: number
}

/** How a project reads its own level in the words of CAP. Nothing is read so unless the project says it. */
export interface CapMapping {
  readonly urgency: 'Immediate' | 'Expected' | 'Future' | 'Past' | 'Unknown'
  readonly severity: 'Extreme' | 'Severe' | 'Moderate' | 'Minor' | 'Unknown'
  readonly certainty: 'Observed' | 'Likely' | 'Possible' | 'Unlikely' | 'Unknown'
}

/** One message about one alert. */
export interface CapAlert {
  /** Unique for its sender; letters, digits and `.:_-` only. */
  readonly identifier: string
  /** Who sends it, unique in the world: a host's name or a mail address. */
  readonly sender: string
  readonly senderName: string
  readonly sentEpochMs: number
  /** IANA zone in which instants are written. */
  readonly timeZone: string
  readonly status: 'Actual' | 'Exercise' | 'Test'
  /** The first is an `Alert`; an `Update` and a `Cancel` name the messages before. A cancel is no word on the ground. */
  readonly msgType: 'Alert' | 'Update' | 'Cancel'
  /** Never the public: whom it is for, or by what rule it may be passed on. */
  readonly audience:
    | { readonly scope: 'Private'; readonly addresses: readonly string[] }
    | { readonly scope: 'Restricted'; readonly restriction: string }
  /** Every earlier message of the alert. */
  readonly references: readonly CapReference[]
  readonly note: string | null
  readonly event: string
  readonly headline: string
  readonly description: string
  /** What the level says is to be done; null: nothing is stated. */
  readonly action: string | null
  readonly onsetEpochMs: number | null
  readonly mapping: CapMapping | null
  /** Address at which the alert is shown. */
  readonly web: string | null
  readonly area: CapArea
  /** Facts for machines. */
  readonly parameters: Readonly<Record<string, string | number | boolean | null>>
}

export interface CapArea {
  readonly description: string
  /** A point with a stated radius, or a ring of three corners or more, first one not repeated; null: not known. */
  readonly shape:
    | { readonly centre: CapPosition; readonly radiusMetres: number }
    | { readonly ring: readonly CapPosition[] }
    | null
}

/** Stands in every instruction. */
export const capCaution =
  "Follow the project's response plan and local regulations. Monitoring supports and does not replace the judgement of the responsible engineer. Readings are provisional until approved. No alert does not mean no movement."

/** The message as a document of the Common Alerting Protocol 1.2 (OASIS Standard, 1 July 2010). */
export const capMessage = (alert: CapAlert): string => toXmlDocument({ alert: capElement(alert) })

/** The message's `alert` element, to stand in another document too. */
export function capElement(alert: CapAlert): XmlElements {
  const { identifier, sender, audience, references, msgType, timeZone } = alert
  for (const word of [identifier, sender]) assertWord(word)
  assert(msgType === 'Alert' || references.length > 0, `${msgType} ${identifier} names no earlier message`)
  const exercise = alert.status === 'Exercise' ? 'EXERCISE: ' : alert.status === 'Test' ? 'TEST: ' : ''
  return {
    '@_xmlns': 'urn:oasis:names:tc:emergency:cap:1.2',
    identifier,
    sender,
    sent: capInstant(alert.sentEpochMs, timeZone),
    status: alert.status,
    msgType,
    scope: audience.scope,
    ...(audience.scope === 'Restricted'
      ? { restriction: filled(audience.restriction) }
      : { addresses: filled(audience.addresses.map(quoted).join(' ')) }),
    note: alert.note ?? undefined,
    references:
      references
        .map((one) => {
          for (const word of [one.identifier, one.sender]) assertWord(word)
          return `${one.sender},${one.identifier},${capInstant(one.sentEpochMs, timeZone)}`
        })
        .join(' ') || undefined,
    info: {
      language: 'en',
      category: 'Geo',
      event: exercise + filled(alert.event),
      responseType: alert.action === null ? undefined : 'Execute',
      urgency: alert.mapping?.urgency ?? 'Unknown',
      severity: alert.mapping?.severity ?? 'Unknown',
      certainty: alert.mapping?.certainty ?? 'Unknown',
      onset: alert.onsetEpochMs === null ? undefined : capInstant(alert.onsetEpochMs, timeZone),
      senderName: alert.senderName,
      headline: exercise + alert.headline,
      description: alert.description,
      instruction: alert.action === null ? capCaution : `${alert.action}\n\n${capCaution}`,
      web: alert.web ?? undefined,
      parameter: Object.entries(alert.parameters).flatMap(([valueName, value]) =>
        value === null ? [] : [{ valueName, value: String(value) }],
      ),
      area: areaElement(alert.area),
    },
  }
}

function areaElement({ description, shape }: CapArea): XmlElements {
  const areaDesc = filled(description)
  if (shape === null) return { areaDesc }
  if ('centre' in shape) {
    assert(shape.radiusMetres >= 0, `a radius of ${shape.radiusMetres} m`)
    return { areaDesc, circle: `${pair(shape.centre)} ${decimal(shape.radiusMetres / 1000, 4)}` }
  }
  const [first] = shape.ring
  assert(first && shape.ring.length >= 3, `an area of ${shape.ring.length} corners`)
  return { areaDesc, polygon: [...shape.ring, first].map(pair).join(' ') }
}

function pair({ latitudeDegrees, longitudeDegrees }: CapPosition): string {
  assert(Math.abs(latitudeDegrees) <= 90 && Math.abs(longitudeDegrees) <= 180, 'no position on the earth')
  // A tenth of a metre.
  return `${decimal(latitudeDegrees, 6)},${decimal(longitudeDegrees, 6)}`
}

/** Never with an exponent, never minus nought. */
const decimal = (value: number, digits: number): string => String(Number(value.toFixed(digits)) + 0)

/** CAP 1.2, 3.2.1: no spaces, commas or restricted characters. Narrower, so that one can stand in an address. */
const assertWord = (word: string) =>
  assert(/^[\w.:@-]{1,200}$/.test(word), `"${word}" cannot stand as identifier or sender of a CAP message`)

function filled(text: string): string {
  assert(text.trim() !== '', 'a CAP message lacks a text that it must have')
  return text
}

/** CAP 1.2, 3.2.1: addresses that include white space stand in double quotes. */
const quoted = (address: string): string =>
  /\s/.test(address) ? `"${address.replaceAll('"', "'")}"` : address

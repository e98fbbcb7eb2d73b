/** One thing to be looked at or measured at a step. */
export interface EvidenceField {
  readonly name: string
  readonly label: string
  readonly kind: 'number' | 'text' | 'flag' | 'choice'
  readonly unit?: string
  readonly options?: readonly string[]
  /** May be left empty. */
  readonly optional?: true
}

/** A step of commissioning a logger. */
export interface CommissioningStep {
  /** Stable; of a channel `channel:` and its name. */
  readonly id: string
  readonly title: string
  readonly instruction: string
  readonly fields: readonly EvidenceField[]
}

/** A channel as far as it is proved: what it is wired to and what a first reading should be. */
export interface ChannelToProve {
  readonly channel: string
  /** point/measure */
  readonly sensor: string
  readonly rawUnit: string
  readonly unit: string
}

const number = (name: string, label: string, unit: string, optional = false): EvidenceField => ({
  name,
  label,
  kind: 'number',
  unit,
  ...(optional ? { optional: true } : {}),
})
const text = (name: string, label: string, optional = false): EvidenceField => ({
  name,
  label,
  kind: 'text',
  ...(optional ? { optional: true } : {}),
})
const flag = (name: string, label: string): EvidenceField => ({ name, label, kind: 'flag' })
const choice = (name: string, label: string, options: readonly string[]): EvidenceField => ({
  name,
  label,
  kind: 'choice',
  options,
})

const before: readonly CommissioningStep[] = [
  {
    id: 'clock',
    title: 'Clock',
    instruction: 'Hold the logger’s clock against UTC, set it, and hold it against UTC again.',
    fields: [
      number('foundAheadSeconds', 'Found ahead of UTC (behind: negative)', 's'),
      number('daysSinceSet', 'Days since it was last set', 'd', true),
      number('leftAheadSeconds', 'Left ahead of UTC', 's'),
    ],
  },
  {
    id: 'batteries',
    title: 'Batteries',
    instruction: 'Put the cells in and measure while the logger transmits, not at rest.',
    fields: [
      number('cells', 'Cells put in', ''),
      number('restVolts', 'Voltage at rest', 'V', true),
      number('loadVolts', 'Voltage under load', 'V'),
      number('leastVolts', 'Least allowed under load, from the cell’s data sheet', 'V'),
    ],
  },
  {
    id: 'power',
    title: 'Power source',
    instruction: 'Say what it runs on, and what happens when that fails.',
    fields: [
      choice('source', 'Runs on', [
        'cells',
        'solar panel and battery',
        'mains and battery',
        'vehicle battery',
      ]),
      text('fallback', 'When that fails', true),
    ],
  },
  {
    id: 'antenna',
    title: 'Antenna',
    instruction: 'Fix it upright and clear of metal; tighten the connector by hand.',
    fields: [
      number('heightMetres', 'Height above ground', 'm'),
      flag('connectorTight', 'Connector tight and sealed'),
    ],
  },
  {
    id: 'earth',
    title: 'Earth',
    instruction: 'Connect the earth where the design asks for one.',
    fields: [
      choice('earth', 'Earth', ['connected', 'not asked for by the design']),
      number('resistanceOhm', 'Resistance to earth', 'ohm', true),
    ],
  },
  {
    id: 'glands',
    title: 'Glands and lid',
    instruction: 'Close unused glands, pull each cable lightly, look at the seal before the lid goes on.',
    fields: [
      flag('unusedClosed', 'Unused glands closed'),
      flag('cablesHeld', 'Cables held'),
      flag('sealClean', 'Seal clean'),
    ],
  },
  {
    id: 'interval',
    title: 'Network size and interval',
    instruction:
      'Say how many loggers share the gateway and how often this one sends; the network plan says whether the air can carry it.',
    fields: [
      number('loggersOnGateway', 'Loggers on the gateway', ''),
      number('intervalMinutes', 'Minutes between readings', 'min'),
    ],
  },
  {
    id: 'radio',
    title: 'Radio region and network',
    instruction:
      'Note region and the network’s identity. Keys and passwords stay with the network’s owner and are never written here.',
    fields: [text('region', 'Radio region'), text('networkIdentity', 'Network identity')],
  },
]

const after: readonly CommissioningStep[] = [
  {
    id: 'coverage',
    title: 'Coverage test',
    instruction:
      'Send test packets from where the logger stays, lid closed, and note the number of the test.',
    fields: [text('test', 'Test number')],
  },
  {
    id: 'names',
    title: 'Names',
    instruction: 'Read the name off the logger and off each cable; they are those of the site’s records.',
    fields: [
      text('nameOnLogger', 'Name on the logger'),
      flag('cablesNamed', 'Every cable carries the name of its sensor'),
    ],
  },
  {
    id: 'units',
    title: 'Engineering units',
    instruction:
      'Look at each value as the page shows it: unit, sign and size are those of the thing measured.',
    fields: [flag('unitsSeen', 'Units, signs and sizes looked at')],
  },
  {
    id: 'receipt',
    title: 'Receipt at the server',
    instruction:
      'Wait for a reading taken after this work began to arrive at the server by the way it will always take.',
    fields: [text('seenBy', 'Where and by whom it was seen', true)],
  },
]

/**
 * The steps of commissioning a logger with these channels, in order: what stands, then each channel by itself, then the
 * way to the server. After ISO 18674-1 and common practice.
 */
export const commissioningSteps = (channels: readonly ChannelToProve[]): readonly CommissioningStep[] => [
  ...before,
  ...channels.map(
    ({ channel, sensor, rawUnit, unit }): CommissioningStep => ({
      id: `channel:${channel}`,
      title: `Channel ${channel}: ${sensor}`,
      instruction:
        'Follow the cable to its terminals, read, then disturb the sensor (press, lift, warm) and see this channel, and no other, move the way it should.',
      fields: [
        text('terminals', 'Terminals and cable'),
        number('predictedLow', 'Predicted for it, from', unit, true),
        number('predictedHigh', 'to', unit, true),
        text('heldAgainst', 'Held against, since nothing was predicted', true),
        number('reading', 'Test reading', rawUnit),
        text('disturbedBy', 'Disturbed by'),
        choice('shouldMove', 'The raw reading should', ['rise', 'fall']),
        number('readingDisturbed', 'Reading while disturbed', rawUnit),
        flag('noOtherMoved', 'No other channel moved'),
      ],
    }),
  ),
  ...after,
]

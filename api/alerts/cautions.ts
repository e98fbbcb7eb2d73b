import { type SilentWatched, silentWatchedWords } from '#domain/alerts/silent-watched.ts'

/** What must be read with every message; the channels that are silent are told because no message comes of them. */
export const cautions = (silent: SilentWatched | null): readonly string[] => [
  `No alert does not mean no movement: ${
    silent === null
      ? 'how many channels have current data is not known at this moment.'
      : `${silentWatchedWords(silent)}.`
  }`,
  'Readings are provisional until approved. Monitoring data support, and do not replace, the judgement of the responsible engineer.',
  'Follow the project’s response plan and local regulations; in immediate danger, leave and call the site emergency contact.',
]

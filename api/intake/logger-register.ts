import type { SiteModel } from '#domain/site/site.ts'
import type { Logger } from '#domain/site/tables.ts'

/** Which loggers and channels of a site a file may speak of. */
export interface LoggerRegister {
  /** By id, else by serial number. */
  find(name: string): Logger | undefined
  /** Null when readings of the channel are taken, else the sentence why they are held. */
  whyHeld(logger: Logger, channel: string): string | null
}

const mostUndeclaredChannels = 4096

/**
 * Readings of a registered logger are taken whether or not the channel is wired: raw is raw, and the wiring record may
 * follow. Only what the logger cannot have is held: a channel number above its declared number of channels, or more
 * unwired names in one file than it has channels.
 */
export function createLoggerRegister(model: SiteModel): LoggerRegister {
  const byId = new Map(model.loggers.map((logger) => [logger.id, logger]))
  const bySerial = new Map(model.loggers.map((logger) => [logger.serial, logger]))
  const wired = new Map<string, Set<string>>()
  for (const { logger, channel } of model.wiring) {
    const names = wired.get(logger) ?? new Set()
    wired.set(logger, names.add(channel))
  }
  const unwired = new Map<string, Set<string>>()
  return {
    find: (name) => byId.get(name.trim()) ?? bySerial.get(name.trim()),
    whyHeld(logger, channel) {
      const names = wired.get(logger.id)
      if (names?.has(channel)) return null
      const most = logger.channels
      if (/^\d{1,6}$/.test(channel) && most !== null) {
        return Number(channel) >= 1 && Number(channel) <= most
          ? null
          : `Logger ${logger.id} has ${most} channels and channel ${channel} is not wired. Correct the logger's record or its wiring, then take the file again.`
      }
      const fresh = unwired.get(logger.id) ?? new Set()
      unwired.set(logger.id, fresh)
      if (fresh.has(channel)) return null
      if (fresh.size >= (most ?? mostUndeclaredChannels)) {
        return `Logger ${logger.id} is given more channels in this file than it has (${most ?? mostUndeclaredChannels}); "${channel}" is not wired. Wire it, or correct the logger's record, then take the file again.`
      }
      fresh.add(channel)
      return null
    },
  }
}

export function unknownLoggerSentence(name: string): string {
  return `No logger "${name.slice(0, 60)}" is registered on this site, by id or by serial number. Register it, then take the file again.`
}

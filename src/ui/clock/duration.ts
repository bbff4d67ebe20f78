/** Lengths of time in words: `45 min`, `1 h 20 min`, `3 h`, `2 days 4 h`. Minutes are dropped from two days on. */
export const durationText = (minutes: number): string => {
  const whole = Math.max(0, Math.round(minutes));
  if (whole < 60) return `${whole} min`;
  if (whole < 2880) {
    const rest = whole % 60;
    return rest === 0 ? `${whole / 60} h` : `${Math.floor(whole / 60)} h ${rest} min`;
  }
  const hours = Math.round(whole / 60);
  const rest = hours % 24;
  const days = `${Math.floor(hours / 24)} days`;
  return rest === 0 ? days : `${days} ${rest} h`;
};

/** A countdown as `12:05` (minutes and seconds); never below `0:00`. */
export const countdownText = (seconds: number): string => {
  const whole = Math.max(0, Math.ceil(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
};

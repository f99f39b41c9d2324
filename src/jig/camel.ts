/** A key as the file writes it (`ear-circle`) as the program does (`earCircle`); layer names in capitals stay as they are. */
export const camel = (key: string): string => key.replace(/-([a-z])/g, (_, c: string) => c.toUpperCase());

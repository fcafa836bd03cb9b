export function warmUp(): void {}

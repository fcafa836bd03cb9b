declare module '*?raw' {
  const text: string;
  export default text;
}
declare module '*?worker&inline' {
  const make: new (options?: { name?: string }) => Worker;
  export default make;
}
declare module '*.css';

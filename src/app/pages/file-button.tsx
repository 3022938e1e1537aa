/** A button that opens the file picker; the input itself is out of sight but not out of reach of a keyboard. */
export function FileButton({
  label,
  accept,
  onFile,
}: {
  readonly label: string;
  readonly accept: string;
  readonly onFile: (file: File) => void;
}) {
  return (
    <label className="button" style={{ justifySelf: 'start' }}>
      {label}
      <input
        type="file"
        className="hidden-visually"
        accept={accept}
        onChange={(event) => {
          const file = event.target.files?.[0];
          if (file !== undefined) onFile(file);
          event.target.value = '';
        }}
      />
    </label>
  );
}

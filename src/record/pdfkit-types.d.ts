/** What pdfkit's published types do not know yet: bytes as an attachment, and its relation (ISO 32000-2, 14.13). */
declare namespace PDFKit.Mixins {
  interface PDFAttachmentOptions {
    relationship?: 'Source' | 'Data' | 'Alternative' | 'Supplement' | 'Unspecified';
  }
  interface PDFAttachment {
    file(src: Uint8Array, options?: PDFAttachmentOptions): this;
  }
}

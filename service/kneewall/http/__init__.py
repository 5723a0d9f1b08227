"""What every route shares: media types, problem documents, limits, request ids, the OpenAPI document and its pages."""

"""The handout: the sheet that the athlete keeps."""

"""Jobs in → results out, from processes of this machine or of others."""
